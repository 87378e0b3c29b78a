import { DEFAULT_ANSWER_LEVEL, duelAnswers, type DuelAnswer } from '../../tendencies/adjustments/duel-answers.js';
import { duelTree } from '../../tendencies/adjustments/duel-tree.js';
import { anyOf, counted, FEWEST_FOR_PERCENT } from '../../tendencies/words/count-words.js';
import { duelAnswerWords } from '../../tendencies/words/adjustment-words.js';
import { foundNothingOn, habitTopic, ofShare, type HabitFinding, type HabitSource } from './habit-claims.js';
import type { HabitTopic } from './habits-shape.js';

/** What the player answers to what the opponent shows before the snap. */
export function adjustmentTopic(source: HabitSource): HabitTopic {
  const { side, asked } = source;
  const { snaps, known } = duelTree(asked, 1);
  if (known === 0)
    return habitTopic(source, 'adjustments', `not charted on ${anyOf(snaps, 'snap')}`, [], 'not charted');
  const answers = duelAnswers(asked, side, DEFAULT_ANSWER_LEVEL);
  const standing = answers.filter(({ established }) => established);
  // Whatever is shown often is worth knowing the usual answer to, silence included.
  const usual = answers.filter(
    (one, place) =>
      one.share.known >= FEWEST_FOR_PERCENT &&
      one.share.count > 0 &&
      answers.findIndex(({ shown }) => shown.termId === one.shown.termId) === place,
  );
  const note = `moves before the snap charted on ${known} of ${counted(snaps, 'snap')}`;
  const findings = [...new Set([...standing, ...usual])].map(findingOf);
  return habitTopic(
    source,
    'adjustments',
    findings.length === 0 ? `${note}; no answer to be told` : note,
    findings,
    foundNothingOn(known),
  );
}

function findingOf(answer: DuelAnswer): HabitFinding {
  const { shown, answer: move, share, established, pValue } = answer;
  return {
    ...ofShare(share),
    key: [`term:${shown.termId}`, move === null ? 'none' : `term:${move.termId}`],
    label: `${move?.label ?? 'no answer'} after ${shown.label}`,
    words: duelAnswerWords(answer, 'scout'),
    status: established ? 'established' : pValue === null ? 'counted' : 'unproven',
  };
}
