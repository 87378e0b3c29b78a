import { UNKNOWN_NUMBER } from '../charting/play-columns.js';
import type { Vocabulary } from '../charting/vocabulary.js';
import {
  drawnRate,
  tallied,
  type Attempting,
  type DrawnRate,
  type Tally,
  type Whose,
} from '../call-sheet/drawn-rate.js';
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

const [NO_DRIVE, NOTHING, TOUCHDOWN, FIELD_GOAL] = [-1, 0, 1, 2];

/** How everybody's drives end. */
export interface DriveTallies {
  readonly touchdown: Tally;
  readonly fieldGoal: Tally;
}

/** Touchdowns and field goals a drive. A drive is what the chart numbers as one; a chart without numbers has none. */
export function driveTallies(input: Input): DriveTallies {
  const ends = driveEnds(input);
  const of = (end: number): Tally =>
    tallied(input, (play) => {
      const ended = ends[play] ?? NO_DRIVE;
      return ended === NO_DRIVE ? -1 : ended === end ? 1 : 0;
    });
  return { touchdown: of(TOUCHDOWN), fieldGoal: of(FIELD_GOAL) };
}

/** @see drawnRate */
export function driveRates({ touchdown, fieldGoal }: DriveTallies, whose: Whose): DriveRates {
  return {
    touchdown: drawnRate(touchdown, whose, GUESSES.touchdown),
    fieldGoal: drawnRate(fieldGoal, whose, GUESSES.fieldGoal),
  };
}

export function outcomesOf({ touchdown, fieldGoal }: DriveRates): DriveOutcomes {
  const sum = touchdown.share + fieldGoal.share;
  const by = sum > 1 ? 1 / sum : 1;
  return { touchdown: by * touchdown.share, fieldGoal: by * fieldGoal.share };
}

/** More than any column of 16 bits numbers in a game. */
const MOST_DRIVES = 2 ** 16;

/** How the drive ended of which a play is the first from scrimmage, -1 for every other play. */
function driveEnds({ facts: { plays }, vocabulary }: Input): Int8Array {
  const drives = plays.number('drive').values;
  const scrimmage = choiceMask(plays, 'playType', ['scrimmage', 'field goal', 'punt']);
  const goals = choiceMask(plays, 'playType', ['field goal']);
  const good = termMask(plays, 'snapResult', vocabulary, ['snapResult.kick-good']);
  const touchdown = vocabulary.idOfCode('ledTo.touchdown-offense');
  const { starts, codes, meanings } = plays.list('ledTo');
  const isTouchdown = (play: number): boolean => {
    for (let at = starts[play] ?? 0; at < (starts[play + 1] ?? 0); at += 1) {
      if (meanings[codes[at] ?? -1] === touchdown) return true;
    }
    return false;
  };
  const firstOf = new Map<number, number>();
  const ends = new Int8Array(plays.count).fill(NO_DRIVE);
  for (const play of playOrder(plays)) {
    const drive = drives[play] ?? UNKNOWN_NUMBER;
    if (drive === UNKNOWN_NUMBER || scrimmage[play] !== 1) continue;
    const key = 2 * ((plays.chartIndex[play] ?? 0) * MOST_DRIVES + drive) + (plays.offenseIsHome[play] ?? 0);
    const first = firstOf.get(key) ?? play;
    firstOf.set(key, first);
    const end = isTouchdown(play) ? TOUCHDOWN : goals[play] === 1 && good[play] === 1 ? FIELD_GOAL : NOTHING;
    ends[first] = Math.max(ends[first] ?? NO_DRIVE, end);
  }
  return ends;
}
