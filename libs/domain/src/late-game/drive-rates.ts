import { UNKNOWN_NUMBER } from '../charting/play-columns.js';
import type { Vocabulary } from '../charting/vocabulary.js';
import { drawnRate, type Attempting, type DrawnRate } from '../call-sheet/drawn-rate.js';
import { choiceMask, termMask } from '../football/play-masks.js';
import { playOrder } from '../football/play-order.js';
import type { TendencyPlays } from '../tendencies/tendency-plays.js';
import type { DriveOutcomes } from './win-chance.js';

/** How our drives end, each chance drawn towards the field's. */
export interface DriveRates {
  readonly touchdown: DrawnRate;
  readonly fieldGoal: DrawnRate;
}

interface Input extends Attempting {
  /** Every play of the field. */
  readonly facts: TendencyPlays;
  readonly vocabulary: Vocabulary;
}

/** Believed before anything is charted. Common practice, no source. */
const GUESSES = { touchdown: 0.25, fieldGoal: 0.15 };

const [NOTHING, TOUCHDOWN, FIELD_GOAL] = [0, 1, 2];

/**
 * Touchdowns and field goals a drive. A drive is what the chart numbers as one; a chart without numbers has none.
 *
 * @see drawnRate
 */
export function driveRates(input: Input): DriveRates {
  const ends = driveEnds(input);
  const rate = (guess: number, end: number): DrawnRate =>
    drawnRate(input, guess, (play) => (ends.has(play) ? (ends.get(play) === end ? 1 : 0) : -1));
  return { touchdown: rate(GUESSES.touchdown, TOUCHDOWN), fieldGoal: rate(GUESSES.fieldGoal, FIELD_GOAL) };
}

export function outcomesOf({ touchdown, fieldGoal }: DriveRates): DriveOutcomes {
  const sum = touchdown.share + fieldGoal.share;
  const by = sum > 1 ? 1 / sum : 1;
  return { touchdown: by * touchdown.share, fieldGoal: by * fieldGoal.share };
}

/** How each drive ended, by the place of its first play from scrimmage. */
function driveEnds({ facts: { plays }, vocabulary }: Input): ReadonlyMap<number, number> {
  const drives = plays.number('drive').values;
  const scrimmage = choiceMask(plays, 'playType', ['scrimmage', 'field goal', 'punt']);
  const goals = choiceMask(plays, 'playType', ['field goal']);
  const good = termMask(plays, 'snapResult', vocabulary, ['snapResult.kick-good']);
  const touchdown = vocabulary.idOfCode('ledTo.touchdown-offense');
  const { starts, codes, meanings } = plays.list('ledTo');
  const isTouchdown = (play: number): boolean =>
    codes.subarray(starts[play], starts[play + 1]).some((code) => meanings[code] === touchdown);
  const firstOf = new Map<string, number>();
  const ends = new Map<number, number>();
  for (const play of playOrder(plays)) {
    const drive = drives[play] ?? UNKNOWN_NUMBER;
    if (drive === UNKNOWN_NUMBER || scrimmage[play] !== 1) continue;
    const key = `${plays.chartIndex[play] ?? -1} ${drive} ${plays.offenseIsHome[play] ?? 0}`;
    const first = firstOf.get(key) ?? play;
    firstOf.set(key, first);
    const end = isTouchdown(play) ? TOUCHDOWN : goals[play] === 1 && good[play] === 1 ? FIELD_GOAL : NOTHING;
    ends.set(first, Math.max(ends.get(first) ?? NOTHING, end));
  }
  return ends;
}
