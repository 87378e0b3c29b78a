import { DomainError } from '../../domain-error.js';
import type { Interval } from '../../statistics/interval.js';
import type { RandomSource } from '../../statistics/seeded-random.js';
import { assertCount, assertOpenUnit } from '../../statistics/guards.js';

export interface LossDifference {
  /** Mean loss of the first less that of the second: below 0 the first forecasts better. */
  readonly difference: number;
  readonly interval: Interval;
  readonly games: number;
}

/**
 * Paired difference of two forecasts' losses on the same plays, with a percentile bootstrap interval that resamples
 * whole games: plays of a game share its plan, so they are no independent draws.
 *
 * @param first, second - loss of each play
 * @param game          - game of each play
 * @param confidence    - probability in (0, 1)
 * @param resamples     - count; at least 1
 * @throws DomainError `stats.invalid_shape`, `stats.invalid_probability`, `stats.invalid_count`
 * @see Efron & Tibshirani (1993), An Introduction to the Bootstrap
 */
export function lossDifference(
  first: Float64Array,
  second: Float64Array,
  game: Int32Array,
  confidence: number,
  resamples: number,
  random: RandomSource,
): LossDifference {
  if (first.length === 0 || second.length !== first.length || game.length !== first.length) {
    throw new DomainError('stats.invalid_shape', 'losses and games are one a play, with at least one play', {
      first: first.length,
      second: second.length,
      game: game.length,
    });
  }
  assertOpenUnit('confidence', confidence);
  assertCount('resamples', resamples, { min: 1 });
  const byGame = new Map<number, { plays: number; sum: number }>();
  for (let play = 0; play < first.length; play += 1) {
    const key = game[play] ?? 0;
    let cell = byGame.get(key);
    if (cell === undefined) byGame.set(key, (cell = { plays: 0, sum: 0 }));
    cell.plays += 1;
    cell.sum += (first[play] ?? 0) - (second[play] ?? 0);
  }
  const games = [...byGame.values()];
  const means = Float64Array.from({ length: resamples }, () => {
    let plays = 0;
    let sum = 0;
    games.forEach((_, __, all) => {
      const drawn = all[Math.floor(random() * all.length)];
      plays += drawn?.plays ?? 0;
      sum += drawn?.sum ?? 0;
    });
    return sum / plays;
  }).sort();
  const tail = (1 - confidence) / 2;
  const quantile = (share: number): number =>
    means[Math.min(resamples - 1, Math.max(0, Math.ceil(share * resamples) - 1))] ?? 0;
  const total = games.reduce((sum, cell) => sum + cell.sum, 0);
  return {
    difference: total / Math.max(1, first.length),
    interval: { lower: quantile(tail), upper: quantile(1 - tail) },
    games: games.length,
  };
}
