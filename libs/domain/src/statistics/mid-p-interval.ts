import { bracketedRoot } from './bracketed-root.js';
import { betaCdf } from './distributions.js';
import { assertCount, assertOpenUnit } from './guards.js';
import type { Interval } from './interval.js';

const TOLERANCE = 1e-12;

/**
 * Exact interval for a binomial share that counts the observed outcome by half: near the stated
 * coverage on average, where the fully exact interval overshoots.
 *
 * @param successes  - count; integer, 0 ≤ successes ≤ trials
 * @param trials     - count; integer, ≥ 1
 * @param confidence - probability in (0, 1)
 * @returns bounds as probabilities, 0 ≤ lower ≤ upper ≤ 1, to 1e-12
 * @throws DomainError `stats.invalid_count`, `stats.invalid_probability`
 * @see Lancaster (1961), J. Am. Stat. Assoc. 56, 223–234; Newcombe (1998), Stat. Med. 17, 857–872, method 6
 */
export function midPInterval(successes: number, trials: number, confidence: number): Interval {
  assertCount('trials', trials, { min: 1 });
  assertCount('successes', successes, { min: 0, max: trials });
  assertOpenUnit('confidence', confidence);

  const tail = (1 - confidence) / 2;
  const crossing = (probability: number): number =>
    bracketedRoot((share) => midDistribution(successes, trials, share) - probability, 0, 1, TOLERANCE);
  return {
    lower: successes === 0 ? 0 : crossing(1 - tail),
    upper: successes === trials ? 1 : crossing(tail),
  };
}

/** P(fewer than the successes) + ½ P(exactly the successes), which falls as the share grows. */
function midDistribution(successes: number, trials: number, share: number): number {
  const atLeast = successes === 0 ? 1 : betaCdf(share, successes, trials - successes + 1);
  const more = successes === trials ? 0 : betaCdf(share, successes + 1, trials - successes);
  return 1 - (atLeast + more) / 2;
}
