import { elementAt } from './element-at.js';
import { assertCount, assertShares } from './guards.js';
import type { RandomSource } from './seeded-random.js';

/**
 * Counts of so many independent trials over categories. One uniform number a trial: plain, and
 * quick enough for the play counts of a season.
 *
 * @param random - uniform source
 * @param trials - integer ≥ 0
 * @param shares - one per category, each in [0, 1], adding up to 1
 * @returns counts in the order of shares, adding up to trials
 * @throws DomainError `stats.invalid_count`, `stats.invalid_probability`, `stats.invalid_shape`
 */
export function drawMultinomial(random: RandomSource, trials: number, shares: readonly number[]): number[] {
  assertCount('trials', trials, { min: 0 });
  assertShares('shares', shares);
  const counts = shares.map(() => 0);
  // Shares may add up to a little less than 1; what falls beyond belongs to the last category that can occur.
  const last = shares.findLastIndex((share) => share > 0);
  for (let trial = 0; trial < trials; trial += 1) {
    let rest = random();
    const category = shares.findIndex((share) => (rest -= share) < 0);
    const drawn = category === -1 ? last : category;
    counts[drawn] = elementAt(counts, drawn) + 1;
  }
  return counts;
}

/**
 * Successes of so many independent trials.
 *
 * @param random - uniform source
 * @param trials - integer ≥ 0
 * @param share  - probability of success, in [0, 1]
 * @returns integer, 0 ≤ successes ≤ trials
 * @throws DomainError `stats.invalid_count`, `stats.invalid_probability`
 */
export function drawBinomial(random: RandomSource, trials: number, share: number): number {
  return elementAt(drawMultinomial(random, trials, [share, 1 - share]), 0);
}
