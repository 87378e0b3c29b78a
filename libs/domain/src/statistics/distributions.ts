import incompleteGamma from '@stdlib/math-base-special-gammainc';
import logGammaOf from '@stdlib/math-base-special-gammaln';
import betaCdfOf from '@stdlib/stats-base-dists-beta-cdf';
import betaQuantileOf from '@stdlib/stats-base-dists-beta-quantile';
import normalCdfOf from '@stdlib/stats-base-dists-normal-cdf';
import normalQuantileOf from '@stdlib/stats-base-dists-normal-quantile';
import { assertNonNegative, assertFinite, assertOpenUnit, assertPositive, assertUnit } from './guards.js';

// The one door to the numerical library: it answers NaN where we refuse, so every entry is guarded here.

/**
 * Quantile of the standard normal distribution.
 *
 * @param probability - lower-tail probability in (0, 1)
 * @returns the point with that much probability below it, in standard deviations
 * @throws DomainError `stats.invalid_probability`
 * @see Wichura (1988), Applied Statistics 37, 477–484 (the kind of rational approximation used)
 */
export function normalQuantile(probability: number): number {
  const known = QUANTILES.get(probability);
  if (known !== undefined) return known;
  assertOpenUnit('probability', probability);
  const quantile = normalQuantileOf(probability, 0, 1);
  if (QUANTILES.size >= MOST_QUANTILES) QUANTILES.clear();
  QUANTILES.set(probability, quantile);
  return quantile;
}

/** A profile asks for the same two thousands of times. */
const QUANTILES = new Map<number, number>();
const MOST_QUANTILES = 100;

/**
 * Lower-tail probability of the standard normal distribution. The upper tail is `normalCdf(-z)`,
 * which keeps its digits where `1 - normalCdf(z)` loses them.
 *
 * @param z - standard deviations, finite
 * @returns probability in [0, 1]
 * @throws DomainError `stats.invalid_number`
 * @see Abramowitz & Stegun (1964), 26.2
 */
export function normalCdf(z: number): number {
  assertFinite('z', z);
  return normalCdfOf(z, 0, 1);
}

/**
 * Quantile of a Beta distribution: the inverse of the regularised incomplete beta function.
 *
 * @param probability - lower-tail probability in (0, 1)
 * @param alpha       - first shape, > 0
 * @param beta        - second shape, > 0
 * @returns the point in [0, 1] with that much probability below it
 * @throws DomainError `stats.invalid_probability`, `stats.invalid_number`
 * @see Abramowitz & Stegun (1964), 26.5
 */
export function betaQuantile(probability: number, alpha: number, beta: number): number {
  assertOpenUnit('probability', probability);
  assertPositive('alpha', alpha);
  assertPositive('beta', beta);
  return betaQuantileOf(probability, alpha, beta);
}

/**
 * Lower-tail probability of a Beta distribution.
 *
 * @param point - in [0, 1]
 * @param alpha - first shape, > 0
 * @param beta  - second shape, > 0
 * @returns probability in [0, 1]
 * @throws DomainError `stats.invalid_probability`, `stats.invalid_number`
 * @see Abramowitz & Stegun (1964), 26.5
 */
export function betaCdf(point: number, alpha: number, beta: number): number {
  assertUnit('point', point);
  assertPositive('alpha', alpha);
  assertPositive('beta', beta);
  return betaCdfOf(point, alpha, beta);
}

/**
 * Upper-tail probability of a chi-square distribution, computed as such: tiny p-values keep their digits.
 *
 * @param statistic        - ≥ 0
 * @param degreesOfFreedom - > 0
 * @returns probability in [0, 1]
 * @throws DomainError `stats.invalid_number`
 * @see Abramowitz & Stegun (1964), 26.4
 */
export function chiSquareUpperTail(statistic: number, degreesOfFreedom: number): number {
  assertNonNegative('statistic', statistic);
  assertPositive('degreesOfFreedom', degreesOfFreedom);
  return incompleteGamma(statistic / 2, degreesOfFreedom / 2, true, true);
}

/**
 * Natural logarithm of the gamma function.
 *
 * @param value - > 0
 * @throws DomainError `stats.invalid_number`
 * @see Abramowitz & Stegun (1964), 6.1
 */
export function logGamma(value: number): number {
  assertPositive('value', value);
  return logGammaOf(value);
}
