import { betaQuantile } from './distributions.js';
import { assertCount, assertOpenUnit } from './guards.js';
import type { Interval } from './interval.js';

/**
 * Equal-tailed interval of the posterior under Jeffreys's prior, Beta(½, ½). At no success the lower
 * bound is 0 and at all successes the upper bound is 1, as coverage near the ends asks for.
 *
 * @param successes  - count; integer, 0 ≤ successes ≤ trials
 * @param trials     - count; integer, ≥ 1
 * @param confidence - probability in (0, 1)
 * @returns bounds as probabilities, 0 ≤ lower ≤ upper ≤ 1
 * @throws DomainError `stats.invalid_count`, `stats.invalid_probability`
 * @see Brown, Cai & DasGupta (2001), Statistical Science 16, 101–133, sections 3.1.2 and 4.1.2
 */
export function jeffreysInterval(successes: number, trials: number, confidence: number): Interval {
  assertCount('trials', trials, { min: 1 });
  assertCount('successes', successes, { min: 0, max: trials });
  assertOpenUnit('confidence', confidence);

  const tail = (1 - confidence) / 2;
  const [alpha, beta] = [successes + 0.5, trials - successes + 0.5];
  return {
    lower: successes === 0 ? 0 : betaQuantile(tail, alpha, beta),
    upper: successes === trials ? 1 : betaQuantile(1 - tail, alpha, beta),
  };
}
