import { UNKNOWN_NUMBER } from '../charting/play-columns.js';
import type { Vocabulary } from '../charting/vocabulary.js';
import { choiceMask, termMask } from '../football/play-masks.js';
import type { TendencyPlays } from '../tendencies/tendency-plays.js';

/** A mean with what it rests on. */
export interface Average {
  readonly mean: number;
  /** What was counted: punts, drives. */
  readonly of: number;
  /** Rests on fewer than ten: little more than what was believed before. */
  readonly isGuess: boolean;
}

export interface GameLength {
  readonly quarterSeconds: number;
}

interface Input {
  readonly facts: TendencyPlays;
  readonly games: readonly (GameLength | null)[];
  readonly vocabulary: Vocabulary;
}

const GUESSES = { puntNet: 37, secondsADrive: 105 };
const GUESS_WEIGHT = 4;
const FEW = 10;

function average(sum: number, of: number, guess: number): Average {
  return { mean: (sum + GUESS_WEIGHT * guess) / (of + GUESS_WEIGHT), of, isGuess: of < FEW };
}

/** Yards that the field's punts move the ball: length less the return, or up to the twenty on a touchback. */
export function netPunts({ facts: { plays }, vocabulary }: Input): Average {
  const punts = choiceMask(plays, 'playType', ['punt']);
  const fakes = choiceMask(plays, 'fake', ['yes']);
  const touchbacks = termMask(plays, 'snapResult', vocabulary, ['snapResult.touchback']);
  const lengths = plays.number('kickLength').values;
  const returns = plays.number('returnYards').values;
  const spots = plays.number('yardsToGoal').values;
  let [sum, of] = [0, 0];
  for (let play = 0; play < plays.count; play += 1) {
    const [length, spot] = [lengths[play] ?? UNKNOWN_NUMBER, spots[play] ?? UNKNOWN_NUMBER];
    if (punts[play] !== 1 || fakes[play] === 1) continue;
    const back = returns[play] ?? UNKNOWN_NUMBER;
    if (touchbacks[play] === 1 ? spot === UNKNOWN_NUMBER : length === UNKNOWN_NUMBER) continue;
    sum += touchbacks[play] === 1 ? spot - 20 : length - (back === UNKNOWN_NUMBER ? 0 : back);
    of += 1;
  }
  return average(sum, of, GUESSES.puntNet);
}

/** Seconds of the clock for each drive, over the games whose every snap was charted. */
export function secondsADrive({ facts: { plays }, games }: Input): Average {
  const drives = plays.number('drive').values;
  const seen = new Map<number, Set<number>>();
  for (let play = 0; play < plays.count; play += 1) {
    const [chart, drive] = [plays.chartIndex[play] ?? -1, drives[play] ?? UNKNOWN_NUMBER];
    if (drive === UNKNOWN_NUMBER || (games[chart] ?? null) === null) continue;
    const own = seen.get(chart) ?? new Set();
    own.add(drive);
    seen.set(chart, own);
  }
  let [seconds, of] = [0, 0];
  for (const [chart, own] of seen) {
    seconds += 4 * (games[chart]?.quarterSeconds ?? 0);
    of += own.size;
  }
  return average(seconds, of, GUESSES.secondsADrive);
}
