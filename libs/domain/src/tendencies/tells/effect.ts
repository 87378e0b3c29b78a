import { assertOpenUnit } from '../../statistics/guards.js';
import type { Interval } from '../../statistics/interval.js';
import { studentQuantile } from '../../statistics/student-quantile.js';
import type { CallTable } from './call-tables.js';

/** How much more, or less, a call is made with a cue than without it, in the same situations of the same games. */
export interface Effect {
  /** Share of the call with the cue, over groups weighted by what they say; 0–1. */
  readonly shareWith: number;
  /** Share without it, over the same groups with the same weights; 0–1. */
  readonly shareWithout: number;
  /** The first less the second: Mantel and Haenszel's risk difference, -1 to 1. */
  readonly difference: number;
  /** Of the difference, games as clusters; null where a single game says something. */
  readonly interval: Interval | null;
  /** The first over the second; null where the call is never made without the cue. */
  readonly lift: number | null;
  /** Games with a situation in which both with and without the cue were seen. */
  readonly games: number;
}

/**
 * The difference that a cue makes, adjusted for situation and game. Each group has weight n₁ n₀ / n, so groups without
 * a play on either side say nothing.
 *
 * The interval is a delete-one-game jackknife with Student's t on games - 1 degrees of freedom. The estimate is a ratio
 * of sums over games, smooth, for which the jackknife is right, needs no random numbers and, unlike a bootstrap of few
 * games, never draws a sample without the cue.
 *
 * @param tables     - of one cue value and one call
 * @param confidence - in (0, 1)
 * @returns null where no group has plays with and without the cue
 * @throws DomainError `stats.invalid_probability`
 * @see Greenland & Robins (1985), Biometrics 41, 55–68; Efron & Stein (1981), Ann. Stat. 9, 586–596
 */
export function effectOf(tables: readonly CallTable[], confidence: number): Effect | null {
  assertOpenUnit('confidence', confidence);
  const parts = new Map<number, GameParts>();
  for (const { game, table } of tables) {
    const [[both, cueOnly], [callOnly, neither]] = table;
    const [shown, absent] = [both + cueOnly, callOnly + neither];
    if (shown === 0 || absent === 0) continue;
    const part = parts.get(game) ?? { with: 0, without: 0, weight: 0 };
    const plays = shown + absent;
    part.with += (both * absent) / plays;
    part.without += (callOnly * shown) / plays;
    part.weight += (shown * absent) / plays;
    parts.set(game, part);
  }
  if (parts.size === 0) return null;

  const games = [...parts.values()];
  const total = games.reduce((sum, part) => added(sum, part), { with: 0, without: 0, weight: 0 });
  const shareWith = total.with / total.weight;
  const shareWithout = total.without / total.weight;
  const difference = shareWith - shareWithout;
  return {
    shareWith,
    shareWithout,
    difference,
    interval: jackknife(games, total, difference, confidence),
    lift: shareWithout === 0 ? null : shareWith / shareWithout,
    games: games.length,
  };
}

interface GameParts {
  with: number;
  without: number;
  weight: number;
}

function added(sum: GameParts, part: GameParts): GameParts {
  return { with: sum.with + part.with, without: sum.without + part.without, weight: sum.weight + part.weight };
}

function jackknife(
  games: readonly GameParts[],
  total: GameParts,
  difference: number,
  confidence: number,
): Interval | null {
  const count = games.length;
  if (count < 2) return null;
  const without = games.map(
    (game) => (total.with - game.with - (total.without - game.without)) / (total.weight - game.weight),
  );
  const mean = without.reduce((sum, value) => sum + value, 0) / count;
  const squares = without.reduce((sum, value) => sum + (value - mean) ** 2, 0);
  const half = studentQuantile(confidence, count - 1) * Math.sqrt((squares * (count - 1)) / count);
  return { lower: Math.max(-1, difference - half), upper: Math.min(1, difference + half) };
}
