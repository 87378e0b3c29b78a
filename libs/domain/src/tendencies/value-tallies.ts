import { UNKNOWN_NUMBER } from '../charting/play-columns.js';
import { pointTallies, type PointTallies } from './points-added.js';
import type { TendencyPlays } from './tendency-plays.js';

/** How often each value of a dimension was used. */
export interface ValueCounts {
  /** Plays on which the dimension is known. */
  readonly known: number;
  /** One a value. */
  readonly counts: ArrayLike<number>;
}

/**
 * The same counts as `addTallies` makes, without the results, for the few plays of one player: a plain array, since
 * memory for a typed one takes longer to get than to fill.
 */
export function countValues(places: Int32Array, codes: Int16Array, values: number): ValueCounts {
  const counts = new Array<number>(values).fill(0);
  let known = 0;
  for (const play of places) {
    const code = codes[play] ?? -1;
    if (code < 0) continue;
    known += 1;
    counts[code] = (counts[code] ?? 0) + 1;
  }
  return { known, counts };
}

/** Counts of one dimension in one situation; arrays have one entry a value. */
export interface Tallies {
  known: number;
  readonly counts: Int32Array;
  /** Plays that succeeded or failed, and those that succeeded. */
  readonly trials: Int32Array;
  readonly successes: Int32Array;
}

export function emptyTallies(values: number): Tallies {
  return {
    known: 0,
    counts: new Int32Array(values),
    trials: new Int32Array(values),
    successes: new Int32Array(values),
  };
}

/**
 * Adds plays to tallies, or takes them away.
 *
 * @param places - places of the plays in the batch
 * @param codes  - the dimension's code of each play of the batch, -1 unknown
 * @param sign   - 1 adds, -1 takes away
 */
export function addTallies(
  tallies: Tallies,
  { success }: TendencyPlays,
  places: Int32Array,
  codes: Int8Array | Int16Array,
  sign: 1 | -1 = 1,
): void {
  const { counts, trials, successes } = tallies;
  let known = 0;
  for (const play of places) {
    const code = codes[play] ?? -1;
    if (code < 0) continue;
    known += 1;
    counts[code] = (counts[code] ?? 0) + sign;
    const outcome = success[play] ?? -1;
    if (outcome < 0) continue;
    trials[code] = (trials[code] ?? 0) + sign;
    if (outcome === 1) successes[code] = (successes[code] ?? 0) + sign;
  }
  tallies.known += sign * known;
}

/** What came of each value's plays; arrays have one entry a value. */
export interface YardTallies {
  readonly yardPlays: Int32Array;
  readonly yards: Int32Array;
  readonly explosivePlays: Int32Array;
  readonly explosive: Int32Array;
  /** Null where the batch carries no expected points. */
  readonly points: PointTallies | null;
}

/** Yards, explosive plays and expected points of each value, over plays with a result that counts. */
export function yardTallies(facts: TendencyPlays, places: Int32Array, codes: Int16Array, values: number): YardTallies {
  const { plays, hasResult, explosive } = facts;
  const gained = plays.number('yardsGained').values;
  const tallies: YardTallies = {
    yardPlays: new Int32Array(values),
    yards: new Int32Array(values),
    explosivePlays: new Int32Array(values),
    explosive: new Int32Array(values),
    points: pointTallies(facts, places, codes, values),
  };
  for (const play of places) {
    const code = codes[play] ?? -1;
    if (code < 0 || hasResult[play] !== 1) continue;
    const yards = gained[play] ?? UNKNOWN_NUMBER;
    if (yards !== UNKNOWN_NUMBER) {
      tallies.yardPlays[code] = (tallies.yardPlays[code] ?? 0) + 1;
      tallies.yards[code] = (tallies.yards[code] ?? 0) + yards;
    }
    const big = explosive[play] ?? -1;
    if (big >= 0) {
      tallies.explosivePlays[code] = (tallies.explosivePlays[code] ?? 0) + 1;
      tallies.explosive[code] = (tallies.explosive[code] ?? 0) + big;
    }
  }
  return tallies;
}

export interface ResultCounts {
  /** Plays that succeeded or failed. */
  readonly trials: number;
  readonly successes: number;
}

/** @param places - places of plays in the batch */
export function resultCounts({ success }: TendencyPlays, places: Int32Array): ResultCounts {
  let trials = 0;
  let successes = 0;
  for (const play of places) {
    const outcome = success[play] ?? -1;
    if (outcome < 0) continue;
    trials += 1;
    successes += outcome;
  }
  return { trials, successes };
}
