import { logGamma } from './distributions.js';
import { elementAt } from './element-at.js';
import { assertNonNegative, assertOpenShares, assertPositive, assertSameLength } from './guards.js';

/**
 * How well a Dirichlet prior foretold a group's counts: the logarithm of the Dirichlet-multinomial
 * probability without its multinomial coefficient, which no comparison of priors needs.
 *
 * @param counts        - one per category, ≥ 0; need not be integers (effective counts of weighted plays)
 * @param mean          - prior share of each category, each > 0, adding up to 1
 * @param concentration - prior weight in plays, > 0
 * @returns natural logarithm; 0 for no counts
 * @throws DomainError `stats.invalid_number`, `stats.invalid_probability`, `stats.invalid_shape`
 * @see Mosimann (1962), Biometrika 49, 65–82
 */
export function dirichletMultinomialEvidence(
  counts: readonly number[],
  mean: readonly number[],
  concentration: number,
): number {
  assertOpenShares('mean', mean);
  assertSameLength('counts', counts, mean.length);
  assertPositive('concentration', concentration);
  for (const count of counts) assertNonNegative('counts', count);

  const size = counts.reduce((sum, count) => sum + count, 0);
  return counts.reduce(
    (sum, count, category) => sum + logRising(concentration * elementAt(mean, category), count),
    -logRising(concentration, size),
  );
}

function logRising(start: number, count: number): number {
  return count === 0 ? 0 : logGamma(start + count) - logGamma(start);
}
