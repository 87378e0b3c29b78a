import { DEFAULT_TELL_LEVEL, tells } from '../../tendencies/tells/tells.js';
import { leads } from '../../tendencies/tells/leads.js';
import type { CueAndCall } from '../../tendencies/tells/tell-shape.js';
import { callWords } from '../../tendencies/words/call-verbs.js';
import { cueWords, leadWords, mayShowTells, tellsRestOn, tellWords } from '../../tendencies/words/tell-words.js';
import { habitTopic, MOST_LINES, type HabitFinding, type HabitSource } from './habit-claims.js';
import type { HabitTopic, PredictedTell } from './habits-shape.js';

/** A lead that a season of film would not settle is none. A choice, no source. */
const MOST_TO_SETTLE = 200;
/** Asked for, before those are left out. */
const CANDIDATES = 15;
/** More leads than this are chased at the expense of what is known. */
const MOST_LEADS = 5;

/**
 * What gives the calls away: discoveries, then leads with what would settle them.
 *
 * @param told - labels of what is shown by other means, which is no lead any more
 */
export function tellTopics(source: HabitSource, told: ReadonlySet<string>): HabitTopic[] {
  const { side, asked } = source;
  const { facts, vocabulary, confidence } = asked;
  const result = tells({ plays: facts, side, vocabulary, confidence, level: DEFAULT_TELL_LEVEL });
  // A pair that only says again what one of its parts says takes the place of something new.
  const found = result.tells.filter(({ restates }) => !restates);
  const listed = leads(result, CANDIDATES)
    .filter(({ snapsToSettle }) => snapsToSettle !== null && snapsToSettle <= MOST_TO_SETTLE)
    .map((lead) => ({ ...findingOf(lead), words: leadWords(lead, 'scout'), status: 'unproven' as const }))
    .filter(({ label }) => !told.has(label))
    .slice(0, MOST_LEADS);
  const more = found.length > MOST_LINES ? `; the ${MOST_LINES} most certain of ${found.length} found` : '';
  const silent = mayShowTells(result.tested) ? 'not found' : 'too little film';
  return [
    habitTopic(
      source,
      'tells',
      `${tellsRestOn(result.tested, result.tells.length)}${more}`,
      found.map((tell) => ({
        ...findingOf(tell),
        words: tellWords(tell, 'scout'),
        status: 'established',
        tell: predicted(tell),
      })),
      silent,
    ),
    habitTopic(
      source,
      'leads',
      listed.length === 0
        ? 'nothing comes near to being a tell'
        : 'nearest to being a tell; chance alone makes such a list, so each names what would settle it',
      listed,
      found.length > 0 ? 'not found' : silent,
    ),
  ];
}

function predicted({ cue, cueValue, dimension, call, direction, ...counts }: CueAndCall): PredictedTell {
  const { countWithout, playsWithout } = counts;
  return {
    cue: [...cue.names],
    cueKey: cueValue.key,
    dimension,
    callKey: call.key,
    direction,
    countWithout,
    playsWithout,
  };
}

function findingOf(of: CueAndCall): Omit<HabitFinding, 'words' | 'status'> {
  const { cue, cueValue, dimension, call, count, plays, evidence } = of;
  return {
    key: [cue.names.join('+'), cueValue.key, dimension, call.key],
    label: `${callWords(dimension, call.label)} with ${cueWords(cue, cueValue)}`,
    count,
    known: plays,
    evidence,
  };
}
