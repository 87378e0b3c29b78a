import { percent } from '../tendencies/words/count-words.js';
import type { LateAdvice, Weighed } from './late-game.js';

/** What to do late in a game, why, and what that rests on. */
export function lateGameWords({ drivesLeft, twoPoint, onside, clock, guesses }: LateAdvice): string {
  const { kneelSeconds, setsToRunOut } = clock;
  return [
    `clock: ${clock.do} (kneeling takes ${kneelSeconds} seconds; ${setsToRunOut === 0 ? 'that runs it out' : `${setsToRunOut} more sets of downs run it out`})`,
    `after a touchdown: ${weighedWords(twoPoint, 'two', 'kick')}`,
    `kickoff: ${weighedWords(onside, 'onside', 'deep')}`,
    `about ${drivesLeft.toFixed(1)} drives left of both`,
    `guessed: ${guesses.join(', ')}`,
  ].join('; ');
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
