import { drawLogGamma } from './draw-gamma.js';
import { elementAt } from './element-at.js';
import { assertLength } from './guards.js';
import type { RandomSource } from './seeded-random.js';

/**
 * One draw of shares from a Dirichlet distribution: independent gamma draws, normalised.
 *
 * @param random - uniform source
 * @param alpha  - one shape per category, each > 0, at least one
 * @returns shares in the order of alpha, ≥ 0, adding up to 1
 * @throws DomainError `stats.invalid_number`, `stats.invalid_shape`
 * @see Devroye (1986), Non-Uniform Random Variate Generation, XI.4
 */
export function drawDirichlet(random: RandomSource, alpha: readonly number[]): number[] {
  assertLength('alpha', alpha, { min: 1 });
  const shares = alpha.map((shape) => drawLogGamma(random, shape));
  const largest = Math.max(...shares);
  let sum = 0;
  for (let category = 0; category < shares.length; category += 1) {
    const scaled = Math.exp((shares[category] ?? 0) - largest);
    shares[category] = scaled;
    sum += scaled;
  }
  for (let category = 0; category < shares.length; category += 1) shares[category] = (shares[category] ?? 0) / sum;
  return shares;
}

/**
 * One draw from a Beta distribution.
 *
 * @param random - uniform source
 * @param alpha  - first shape, > 0
 * @param beta   - second shape, > 0
 * @returns share in [0, 1]
 * @throws DomainError `stats.invalid_number`
 */
export function drawBeta(random: RandomSource, alpha: number, beta: number): number {
  return elementAt(drawDirichlet(random, [alpha, beta]), 0);
}
