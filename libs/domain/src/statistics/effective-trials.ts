import { DomainError } from '../domain-error.js';
import { assertNonNegative } from './guards.js';

/**
 * Kish's effective number of trials under unequal weights: equal weights give the plain count,
 * one dominating weight gives 1.
 *
 * @param weights - one per trial, ≥ 0, not all 0; their common scale does not matter
 * @returns number in [1, weights.length]
 * @throws DomainError `stats.invalid_number`; `stats.undefined_statistic` when no weight is above 0
 * @see Kish (1965), Survey Sampling, 11.7
 */
export function effectiveTrials(weights: readonly number[]): number {
  for (const weight of weights) assertNonNegative('weights', weight);
  const largest = weights.reduce((highest, weight) => Math.max(highest, weight), 0);
  if (largest === 0) {
    throw new DomainError('stats.undefined_statistic', 'no trial carries weight', { trials: weights.length });
  }

  // Scaled by the largest, so that squares of tiny or huge weights neither vanish nor overflow.
  const scaled = weights.map((weight) => weight / largest);
  const sum = scaled.reduce((total, weight) => total + weight, 0);
  const sumOfSquares = scaled.reduce((total, weight) => total + weight ** 2, 0);
  return sum ** 2 / sumOfSquares;
}
