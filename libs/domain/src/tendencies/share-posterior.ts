import type { Interval } from '../statistics/interval.js';
import { betaLogNorm, betaMixtureCdf, betaMixtureQuantile, type BetaPart } from './beta-mixture.js';

/**
 * What is believed of one share after the field and the player's own plays: a mixture of at most two Beta
 * distributions, one for each kind of player that the prior knows.
 */
export class SharePosterior {
  /** The mean. */
  readonly share: number;
  readonly #parts: readonly BetaPart[];

  constructor(parts: readonly BetaPart[]) {
    this.#parts = parts;
    this.share = parts.reduce((sum, { weight, alpha, beta }) => sum + (weight * alpha) / (alpha + beta), 0);
  }

  /** Equal-tailed. @param confidence - probability in (0, 1) */
  interval(confidence: number): Interval {
    const tail = (1 - confidence) / 2;
    return { lower: betaMixtureQuantile(tail, this.#parts), upper: betaMixtureQuantile(1 - tail, this.#parts) };
  }

  /** Probability that the share is at most this; 0 below and 1 above [0, 1]. */
  probabilityBelow(share: number): number {
    return betaMixtureCdf(share, this.#parts);
  }
}

/** A kind of player, and how likely one is of that kind after all of the player's counts. */
export interface PlayerKind {
  readonly probability: number;
  /** Prior weight in plays. */
  readonly concentration: number;
}

// Moves no bound of a 90 % interval by a millionth; below it a part only costs time.
const NEGLIGIBLE = 1e-9;

/**
 * The posterior of one value's share.
 *
 * @param count - the player's (effective) plays with the value, ≥ 0
 * @param known - the player's (effective) known plays, ≥ count
 * @param mean  - prior share of the value, in (0, 1)
 * @param kinds - their probabilities add up to 1
 * @see Gelman et al. (2013), Bayesian Data Analysis, 3rd ed., section 3.4
 */
export function sharePosterior(
  count: number,
  known: number,
  mean: number,
  kinds: readonly PlayerKind[],
): SharePosterior {
  const parts = kinds
    .filter(({ probability }) => probability > NEGLIGIBLE)
    .map(({ probability, concentration }) => {
      const alpha = count + concentration * mean;
      const beta = Math.max(0, known - count) + concentration * (1 - mean);
      return { weight: probability, alpha, beta, logNorm: betaLogNorm(alpha, beta) };
    });
  return new SharePosterior(parts);
}
