import { normalQuantile } from './distributions.js';
import { assertCount, assertOpenUnit, assertPositive, assertUnit } from './guards.js';
import type { Interval } from './interval.js';

/**
 * Wilson score interval for a binomial share. Preferred to the normal approximation, which
 * leaves [0, 1] and loses coverage at the small counts tendencies are made of. Closed form.
 *
 * @param successes  - count; integer, 0 ≤ successes ≤ trials
 * @param trials     - count; integer, ≥ 1
 * @param confidence - probability in (0, 1); no default: the caller says what is meant
 * @returns bounds as probabilities, 0 ≤ lower ≤ upper ≤ 1
 * @throws DomainError `stats.invalid_count`, `stats.invalid_probability`
 * @see Wilson (1927), J. Am. Stat. Assoc. 22, 209–212
 */
export function wilsonInterval(successes: number, trials: number, confidence: number): Interval {
  assertCount('trials', trials, { min: 1 });
  assertCount('successes', successes, { min: 0, max: trials });
  return wilsonIntervalWeighted(successes / trials, trials, confidence);
}

/**
 * The same interval where trials carry weights: the weighted share with Kish's effective number
 * of trials, (Σw)² / Σw². An approximation: the binomial model holds for whole trials only.
 *
 * @param share           - weighted share of successes, in [0, 1]
 * @param effectiveTrials - > 0; need not be an integer
 * @param confidence      - probability in (0, 1)
 * @returns bounds as probabilities, 0 ≤ lower ≤ upper ≤ 1
 * @throws DomainError `stats.invalid_number`, `stats.invalid_probability`
 * @see Kish (1965), Survey Sampling, 11.7; Wilson (1927), J. Am. Stat. Assoc. 22, 209–212
 */
export function wilsonIntervalWeighted(share: number, effectiveTrials: number, confidence: number): Interval {
  assertUnit('share', share);
  assertPositive('effectiveTrials', effectiveTrials);
  assertOpenUnit('confidence', confidence);

  const z = normalQuantile((1 + confidence) / 2);
  const shrink = 1 / (1 + z ** 2 / effectiveTrials);
  const centre = shrink * (share + z ** 2 / (2 * effectiveTrials));
  const spread = shrink * z * Math.sqrt((share * (1 - share)) / effectiveTrials + (z / (2 * effectiveTrials)) ** 2);
  // At no or all successes a bound is exactly 0 or 1; rounding leaves it some 1e-17 beside.
  return {
    lower: share === 0 ? 0 : Math.max(0, centre - spread),
    upper: share === 1 ? 1 : Math.min(1, centre + spread),
  };
}
