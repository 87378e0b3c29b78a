import { logGamma } from './distributions.js';

/**
 * Natural logarithm of the number of ways to choose some of many; never overflows.
 *
 * @param from   - integer ≥ 0
 * @param chosen - integer, 0 ≤ chosen ≤ from
 * @throws DomainError `stats.invalid_number` outside those bounds
 */
export function logChoose(from: number, chosen: number): number {
  return logGamma(from + 1) - logGamma(chosen + 1) - logGamma(from - chosen + 1);
}
