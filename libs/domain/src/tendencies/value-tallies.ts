import { UNKNOWN_NUMBER } from '../charting/play-columns.js';
import { pointTallies, type PointTally } from './points-added.js';
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

/** What was gained on the plays of one value. */
export interface YardTally {
  yardPlays: number;
  yards: number;
  explosivePlays: number;
  explosive: number;
}

/** What came of the plays, by the value's code; values are left out where nothing is known. */
export interface YardTallies {
  readonly gains: readonly (YardTally | undefined)[];
  readonly points: readonly (PointTally | undefined)[];
}

/** Yards, explosive plays and expected points of each value, over plays with a result that counts. */
export function yardTallies(facts: TendencyPlays, places: Int32Array, codes: Int16Array): YardTallies {
  const { plays, hasResult, explosive } = facts;
  const gained = plays.number('yardsGained').values;
  const gains: (YardTally | undefined)[] = [];
  for (const play of places) {
    const code = codes[play] ?? -1;
    if (code < 0 || hasResult[play] !== 1) continue;
    const tally = (gains[code] ??= { yardPlays: 0, yards: 0, explosivePlays: 0, explosive: 0 });
    const yards = gained[play] ?? UNKNOWN_NUMBER;
    if (yards !== UNKNOWN_NUMBER) {
      tally.yardPlays += 1;
      tally.yards += yards;
    }
    const big = explosive[play] ?? -1;
    if (big >= 0) {
      tally.explosivePlays += 1;
      tally.explosive += big;
    }
  }
  return { gains, points: pointTallies(facts, places, codes) };
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
