import type { DuelAnswer } from '../adjustments/duel-answers.js';
import type { DuelStep } from '../adjustments/duel-steps.js';
import type { DuelNode } from '../adjustments/duel-tree.js';
import type { Results } from '../results-shape.js';
import type { Side } from '../tendency-plays.js';
import { pValueWords, shareWords, wordedShare } from './count-words.js';
import { sentence, type Voice } from './voice.js';

/** `line shifted, then play mirrored 5 of 8 that came so far; snapped there 3 of 5; succeeded 2 of 5`. */
export function duelNodeWords({ path, share, snapped, results }: DuelNode, side: Side, voice: Voice): string {
  const words = shareWords(wordedShare(share));
  if (path.length === 0) {
    const moves = `snapped without a move ${snapped} of ${share.count}`;
    return [`at the line: duel known on ${words}`, moves, ...successNotes(results)].join('; ');
  }
  const way = path.map((step) => stepWords(step, side)).join(', then ');
  return sentence(
    {
      scout: `${way} ${words} that came so far`,
      self: `get to ${way} ${words} times when it comes so far`,
      notes: [`snapped there ${snapped} of ${share.count}`, ...successNotes(results)],
    },
    voice,
  );
}

/** `after line shifted: play mirrored 12 of 20, 42-76 %; without it 8 of 90; stands among all asked about (p 0.001)`. */
export function duelAnswerWords({ shown, answer, share, anyway, ...of }: DuelAnswer, voice: Voice): string {
  const does = answer === null ? 'no answer' : answer.label;
  const words = shareWords(wordedShare(share));
  const proof =
    of.pValue === null
      ? []
      : [`${of.established ? 'stands among all answers asked about' : 'not proven'} (${pValueWords(of.pValue)})`];
  return sentence(
    {
      scout: `after ${shown.label}: ${does} ${words}`,
      self: `answer ${shown.label} with ${does} ${words}`,
      notes: [`without it ${anyway.count} of ${anyway.known}`, ...proof, ...successNotes(of.results)],
    },
    voice,
  );
}

/** `succeeded 2 of 5`, or nothing where no play has a result. */
function successNotes({ successes, trials }: Results): string[] {
  return trials === 0 ? [] : [`succeeded ${successes} of ${trials}`];
}

function stepWords({ by, label }: DuelStep, side: Side): string {
  return by === null || by === side ? label : `${label} by the other side`;
}
