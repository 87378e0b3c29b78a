import { counted, percent } from '../tendencies/words/count-words.js';
import type { ClockAdvice } from './clock-advice.js';
import type { LateAdvice, Weighed } from './late-game.js';

/** What to do late in a game, why, and what that rests on. */
export function lateGameWords({ drivesLeft, twoPoint, onside, clock, guesses }: LateAdvice): string {
  return [
    `clock: ${clockWords(clock)}`,
    `after a touchdown: ${weighedWords(twoPoint, 'two', 'kick')}`,
    `kickoff: ${weighedWords(onside, 'onside', 'deep')}`,
    `about ${drivesLeft.toFixed(1)} drives left of both`,
    `guessed: ${guesses.join(', ')}`,
  ].join('; ');
}

/** What kneeling takes is told where the advice turns on it. */
function clockWords({ do: what, kneelSeconds, setsToRunOut }: ClockAdvice): string {
  if (what === 'hurry' || what === 'play on') return what;
  const sets = `${counted(setsToRunOut, 'more set')} of downs ${setsToRunOut === 1 ? 'runs' : 'run'} it out`;
  return `${what} (kneeling takes ${counted(kneelSeconds, 'second')}; ${setsToRunOut === 0 ? 'that runs it out' : sets})`;
}

function weighedWords<Choice extends string>(
  { best, chances, stands }: Weighed<Choice>,
  first: Choice,
  second: Choice,
): string {
  const wins = `${first} wins ${percent(chances[first])}, ${second} ${percent(chances[second])}`;
  if (best === null) return `${first} or ${second}: as good as equal (${wins})`;
  return `${best} (${wins}${stands ? '' : '; hangs on a chance of ours that is not settled'})`;
}
