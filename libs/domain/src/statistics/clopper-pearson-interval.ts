import { betaQuantile } from './distributions.js';
import { assertCount, assertOpenUnit } from './guards.js';
import type { Interval } from './interval.js';

/**
 * Exact interval for a binomial share: covers at least as often as stated, at any true share, and
 * is wider than it need be. For the few places where a promise must never be broken.
 *
 * @param successes  - count; integer, 0 ≤ successes ≤ trials
 * @param trials     - count; integer, ≥ 1
 * @param confidence - probability in (0, 1)
 * @returns bounds as probabilities, 0 ≤ lower ≤ upper ≤ 1
 * @throws DomainError `stats.invalid_count`, `stats.invalid_probability`
 * @see Clopper & Pearson (1934), Biometrika 26, 404–413
 */
export function clopperPearsonInterval(successes: number, trials: number, confidence: number): Interval {
  assertCount('trials', trials, { min: 1 });
  assertCount('successes', successes, { min: 0, max: trials });
  assertOpenUnit('confidence', confidence);

  const tail = (1 - confidence) / 2;
  return {
    lower: successes === 0 ? 0 : betaQuantile(tail, successes, trials - successes + 1),
    upper: successes === trials ? 1 : betaQuantile(1 - tail, successes + 1, trials - successes),
  };
}
