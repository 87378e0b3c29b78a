import { betaQuantile } from './distributions.js';
import { assertCount, assertOpenUnit } from './guards.js';

/**
 * The point that Student's t stays within, on either side of 0, with the given probability.
 *
 * @param confidence       - probability in (0, 1)
 * @param degreesOfFreedom - integer, ≥ 1
 * @returns number > 0
 * @throws DomainError `stats.invalid_count`, `stats.invalid_probability`
 * @see Abramowitz & Stegun (1964), 26.7.1 (the two-sided tail as an incomplete beta function)
 */
export function studentQuantile(confidence: number, degreesOfFreedom: number): number {
  assertOpenUnit('confidence', confidence);
  assertCount('degreesOfFreedom', degreesOfFreedom, { min: 1 });
  const point = betaQuantile(1 - confidence, degreesOfFreedom / 2, 0.5);
  return Math.sqrt((degreesOfFreedom * (1 - point)) / point);
}
