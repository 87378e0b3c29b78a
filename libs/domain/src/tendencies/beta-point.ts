import { logGamma } from '../statistics/distributions.js';
import { incompleteBetaFraction } from './incomplete-beta-fraction.js';

export interface BetaShape {
  /** > 0. */
  readonly alpha: number;
  /** > 0. */
  readonly beta: number;
  /** `betaLogNorm(alpha, beta)`, kept since every evaluation needs it. */
  readonly logNorm: number;
}

/** Logarithm of 1 / B(alpha, beta), both > 0. */
export function betaLogNorm(alpha: number, beta: number): number {
  return logGamma(alpha + beta) - logGamma(alpha) - logGamma(beta);
}

export interface BetaPoint {
  readonly cdf: number;
  /** Derivative of the distribution function in the logit of the point. */
  readonly slope: number;
}

const EXACT = 1e-12;

/**
 * A Beta distribution at one point.
 *
 * @param point     - in (0, 1)
 * @param tolerance - of the tail on the point's side of the mean, as a part of it
 * @see Abramowitz & Stegun (1964), 26.5
 */
export function betaPoint(point: number, { alpha, beta, logNorm }: BetaShape, tolerance = EXACT): BetaPoint {
  const slope = Math.exp(alpha * Math.log(point) + beta * Math.log1p(-point) + logNorm);
  // The fraction converges quickly below the mean only; above it the mirrored one does.
  const cdf =
    point < (alpha + 1) / (alpha + beta + 2)
      ? (slope * incompleteBetaFraction(point, alpha, beta, tolerance)) / alpha
      : 1 - (slope * incompleteBetaFraction(1 - point, beta, alpha, tolerance)) / beta;
  return { cdf, slope };
}
