import type { Choice, FourthDown, FourthDownAdvice } from './fourth-down.js';

/** What to do on a fourth down, why, and what that rests on. */
export function fourthDownWords(advice: FourthDownAdvice, situation: FourthDown): string {
  const { choices, best, drivesLeft, guesses } = advice;
  const nearest = choices.slice(0, 2).map(({ choice }) => choice);
  const head = best ?? `${nearest.join(' or ')}: as good as equal`;
  const left = drivesLeft === null ? [] : [`about ${drivesLeft.toFixed(1)} drives left of both, this one counted`];
  const believed = guesses.length === 0 ? [] : [`guessed: ${guesses.join(', ')}`];
  return [head, ...choices.map((choice) => choiceWords(choice, situation)), ...left, ...believed].join('; ');
}

function choiceWords({ choice, points, rate, catchesUp }: Choice, { scoreDifference }: FourthDown): string {
  const worth = `${choice} is worth ${points.toFixed(1)} points`;
  const chance =
    rate === null
      ? []
      : [`ours ${rate.own.count} of ${rate.own.known}, field ${rate.field.count} of ${rate.field.known}`];
  const behind =
    catchesUp === false && choice === 'kick' && scoreDifference !== null
      ? [`it leaves you ${-(scoreDifference + 3)} behind`]
      : [];
  const more = [...chance, ...behind];
  return more.length === 0 ? worth : `${worth} (${more.join('; ')})`;
}
