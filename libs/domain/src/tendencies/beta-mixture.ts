import { betaPoint, type BetaShape } from './beta-point.js';

/** One part of a mixture of Beta distributions. */
export interface BetaPart extends BetaShape {
  /** In (0, 1]; the parts' weights add up to 1. */
  readonly weight: number;
}

/**
 * Lower-tail probability of a mixture of Beta distributions: the library's Beta distribution to 1e-9, and several times
 * as fast, since a profile asks for thousands.
 *
 * @param point - any number; at 0 and below the answer is 0, at 1 and above it is 1
 * @param parts - the mixture
 */
export function betaMixtureCdf(point: number, parts: readonly BetaPart[]): number {
  if (point <= 0) return 0;
  if (point >= 1) return 1;
  let cdf = 0;
  for (const part of parts) cdf += part.weight * betaPoint(point, part).cdf;
  return cdf;
}
