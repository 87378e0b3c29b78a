import { UNKNOWN_CODE, UNKNOWN_NUMBER } from '../../charting/play-columns.js';
import type { CodeFieldName } from '../../charting/play-fields.js';
import type { Vocabulary } from '../../charting/vocabulary.js';
import { BY_SCORE } from '../../tendencies/decisions/partitions.js';
import { fieldCodes, wordValue, type DimensionCodes } from '../../tendencies/dimension-codes.js';
import type { TendencyPlays } from '../../tendencies/tendency-plays.js';
import { cuesOf } from '../live/call-archive.js';
import type { ForecastTarget } from '../targets.js';

/** Something that is known of a play before its call is. */
export type SeenPart = 'situation' | 'score by period' | CodeFieldName;

/** What a frozen forecast of the target may read: the situation, the score by the period, and every word that shows. */
export function seenParts(target: ForecastTarget): readonly SeenPart[] {
  return ['situation', 'score by period', ...cuesOf(target)];
}

/** One part read off a batch; its keys are the same in every batch. */
export function readSeenPart(part: SeenPart, facts: TendencyPlays, vocabulary: Vocabulary): DimensionCodes {
  if (part === 'situation') {
    return { codes: Int16Array.from(facts.situation), values: facts.situationNames.map(wordValue) };
  }
  return part === 'score by period' ? scoreByPeriod(facts) : fieldCodes(part, facts, vocabulary);
}

const PERIODS = ['first half', 'third quarter', 'fourth quarter or overtime'];

/** The score counts the more the later it is; common practice, no source. */
function scoreByPeriod({ plays }: TendencyPlays): DimensionCodes {
  const { codes: scores, names } = BY_SCORE.classify(plays);
  const quarters = plays.number('quarter').values;
  const codes = Int16Array.from(scores, (score, play) => {
    const quarter = quarters[play] ?? UNKNOWN_NUMBER;
    if (score < 0 || quarter === UNKNOWN_NUMBER) return UNKNOWN_CODE;
    return (quarter <= 2 ? 0 : quarter === 3 ? 1 : 2) * names.length + score;
  });
  return { codes, values: PERIODS.flatMap((period) => names.map((name) => wordValue(`${name}, ${period}`))) };
}
