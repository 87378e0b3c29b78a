import { betaQuantile } from './distributions.js';
import { elementAt } from './element-at.js';
import { assertNonNegative, assertOpenShares, assertOpenUnit, assertPositive, assertSameLength } from './guards.js';
import type { Interval } from './interval.js';

/** A category's share of the calls, in [0, 1], and the interval around it. */
export interface ShareEstimate {
  readonly share: number;
  readonly interval: Interval;
}

/**
 * A player's shares after seeing the field and the player: the Dirichlet posterior's mean per
 * category, and the equal-tailed interval of its marginal Beta distribution.
 *
 * @param counts        - the player's plays per category, ≥ 0; effective counts of weighted plays may be fractions
 * @param mean          - the field's share of each category, each > 0, adding up to 1; at least two categories
 * @param concentration - prior weight in plays, > 0
 * @param confidence    - probability in (0, 1) of each interval on its own, not of all together
 * @returns one estimate per category, in order; shares add up to 1
 * @throws DomainError `stats.invalid_number`, `stats.invalid_probability`, `stats.invalid_shape`
 * @see Gelman et al. (2013), Bayesian Data Analysis, 3rd ed., section 3.4
 */
export function dirichletMultinomialPosterior(
  counts: readonly number[],
  mean: readonly number[],
  concentration: number,
  confidence: number,
): ShareEstimate[] {
  assertOpenShares('mean', mean);
  assertSameLength('counts', counts, mean.length);
  for (const count of counts) assertNonNegative('counts', count);
  assertPositive('concentration', concentration);
  assertOpenUnit('confidence', confidence);

  const size = counts.reduce((sum, count) => sum + count, 0);
  const tail = (1 - confidence) / 2;
  return counts.map((count, category) => {
    const alpha = count + concentration * elementAt(mean, category);
    const beta = size + concentration - alpha;
    return {
      share: alpha / (size + concentration),
      interval: { lower: betaQuantile(tail, alpha, beta), upper: betaQuantile(1 - tail, alpha, beta) },
    };
  });
}
