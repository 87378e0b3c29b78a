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

  let size = 0;
  let evidence = 0;
  for (let category = 0; category < mean.length; category += 1) {
    const count = elementAt(counts, category);
    assertNonNegative('counts', count);
    size += count;
    evidence += logRising(concentration * elementAt(mean, category), count);
  }
  return evidence - logRising(concentration, size);
}

/**
 * Logarithm of the rising factorial start (start + 1) ... (start + count - 1). Nothing is checked, since a profile asks for
 * thousands.
 *
 * @param start - > 0
 * @param count - ≥ 0; need not be whole, where it is the difference of two logarithms of the gamma function
 */
export function logRising(start: number, count: number): number {
  if (count > MOST_FACTORS || !Number.isInteger(count)) return logGamma(start + count) - logGamma(start);
  // One logarithm in place of two gamma functions, and not a digit lost.
  let product = 1;
  for (let factor = 0; factor < count; factor += 1) product *= start + factor;
  return product < Infinity ? Math.log(product) : count * Math.log(start);
}

/** Factors of which so many are no number are so large that what is added to them is lost in rounding. */
const MOST_FACTORS = 20;
