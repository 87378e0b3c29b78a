import { DomainError } from '../domain-error.js';
import { compensatedSum } from './compensated-sum.js';
import { assertCount, assertLength, assertShares } from './guards.js';

/**
 * Shannon entropy of shares, in bits: the yes-or-no questions a call leaves open on average. 0 log 0 is 0.
 *
 * @param shares - in [0, 1], adding up to 1
 * @returns bits, from 0 to the logarithm of the number of categories
 * @throws DomainError `stats.invalid_probability`, `stats.invalid_shape`
 * @see Shannon (1948), Bell Syst. Tech. J. 27, 379–423
 */
export function entropyBits(shares: readonly number[]): number {
  assertShares('shares', shares);
  return compensatedSum(shares.map((share) => (share === 0 ? 0 : -share * Math.log2(share))));
}

/**
 * Entropy estimated from counts, in bits. The plug-in value is too low on average, the more so the fewer
 * plays; Miller's correction adds (categories seen - 1) / 2N nats and may pass the logarithm of the
 * number of categories.
 *
 * @param counts    - integers ≥ 0, not all 0
 * @param estimator - `plug-in` or `miller-madow`; the caller says which
 * @throws DomainError `stats.invalid_count`, `stats.invalid_shape`; `stats.undefined_statistic` without any play
 * @see Miller (1955), in Quastler (ed.), Information Theory in Psychology, 95–100
 */
export function entropyOfCountsBits(counts: readonly number[], estimator: 'plug-in' | 'miller-madow'): number {
  assertLength('counts', counts, { min: 1 });
  for (const count of counts) assertCount('counts', count, { min: 0 });
  const total = compensatedSum(counts);
  if (total === 0) throw new DomainError('stats.undefined_statistic', 'no play was counted');

  const plugIn = entropyBits(counts.map((count) => count / total));
  if (estimator === 'plug-in') return plugIn;
  const seen = counts.filter((count) => count > 0).length;
  return plugIn + (seen - 1) / (2 * total * Math.LN2);
}
