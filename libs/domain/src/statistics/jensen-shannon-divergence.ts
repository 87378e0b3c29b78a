import { elementAt } from './element-at.js';
import { entropyBits } from './entropy.js';
import { assertOpenUnit, assertSameLength, assertShares } from './guards.js';

/**
 * How far two mixes of calls lie apart, in bits: 0 for the same mix; at equal weights 1 for mixes that share no
 * call. The divergence itself, not its square root. With weights it is what a play tells of the mix it comes from.
 *
 * @param first         - shares, in [0, 1], adding up to 1
 * @param second        - likewise, same categories
 * @param weightOfFirst - in (0, 1); ½ for the usual, symmetric form
 * @returns bits in [0, 1]
 * @throws DomainError `stats.invalid_probability`, `stats.invalid_shape`
 * @see Lin (1991), IEEE Trans. Inf. Theory 37, 145–151
 */
export function jensenShannonDivergenceBits(
  first: readonly number[],
  second: readonly number[],
  weightOfFirst = 0.5,
): number {
  assertShares('first', first);
  assertShares('second', second);
  assertSameLength('second', second, first.length);
  assertOpenUnit('weightOfFirst', weightOfFirst);

  const middle = first.map((share, index) => weightOfFirst * share + (1 - weightOfFirst) * elementAt(second, index));
  const apart = weightOfFirst * entropyBits(first) + (1 - weightOfFirst) * entropyBits(second);
  // Rounding leaves equal mixes some 1e-17 beside 0.
  return Math.min(1, Math.max(0, entropyBits(middle) - apart));
}
