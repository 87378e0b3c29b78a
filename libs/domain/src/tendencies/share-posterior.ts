import { normalQuantile } from '../statistics/distributions.js';
import type { Interval } from '../statistics/interval.js';
import { betaMixtureCdf, type BetaPart } from './beta-mixture.js';
import { betaLogNorm, type BetaShape } from './beta-point.js';
import { quickBetaQuantile } from './beta-quantile.js';

type PosteriorPart = Omit<BetaPart, 'logNorm'>;

/**
 * What is believed of one share after the field and the player's own plays: a mixture of at most two Beta
 * distributions, one for each kind of player that the prior knows; and an interval that holds for players far off the
 * field as well.
 */
export class SharePosterior {
  /** The posterior's mean: the estimate with the smallest squared error. */
  readonly share: number;
  readonly #parts: readonly PosteriorPart[];
  readonly #around: BetaShape;

  /**
   * @param parts  - the posterior
   * @param around - whose equal-tailed interval is the share's
   */
  constructor(parts: readonly PosteriorPart[], around: BetaShape) {
    this.#parts = parts;
    this.#around = around;
    this.share = parts.reduce((sum, { weight, alpha, beta }) => sum + (weight * alpha) / (alpha + beta), 0);
  }

  /**
   * Holds the truth at the stated confidence on average over players and situations, and nearly as often for shares far
   * off the field as for those near it, which the posterior's own quantiles do not (`FIELD_TRUST`). Always holds the
   * posterior's mean.
   *
   * @param confidence - probability in (0, 1)
   */
  interval(confidence: number): Interval {
    const tail = (1 - confidence) / 2;
    const normal = normalQuantile(tail);
    return {
      lower: Math.min(this.share, quickBetaQuantile(tail, normal, this.#around)),
      upper: Math.max(this.share, quickBetaQuantile(1 - tail, -normal, this.#around)),
    };
  }

  /** Probability that the share is at most this; 0 below and 1 above [0, 1]. */
  probabilityBelow(share: number): number {
    return betaMixtureCdf(
      share,
      // Asked of few shares, and the norm takes longest.
      this.#parts.map((part) => ({ ...part, logNorm: betaLogNorm(part.alpha, part.beta) })),
    );
  }
}

/** A kind of player, and how likely one is of that kind after all of the player's counts. */
export interface PlayerKind {
  readonly probability: number;
  /** Prior weight in plays. */
  readonly concentration: number;
}

// Moves no probability by a millionth; below it a part only costs time.
const NEGLIGIBLE = 1e-9;

/**
 * How much of the prior's weight the interval's centre is drawn with. At 1 the interval is the posterior's: short, right
 * 90 % of the time on average, but 52 to 69 % in the tenth of the shares that lie furthest off the field, since the
 * centre is drawn away from them by more than the width allows. At 0 it is the raw share's, twice as wide. At a quarter
 * it holds nearly every distance alike (0.83 and more in the furthest tenth of every kind of league tried) for a quarter
 * more width. A choice, made on simulated leagues (docs/reference/calibration.md), no source.
 */
const FIELD_TRUST = 0.25;

/**
 * The posterior of one value's share.
 *
 * @param count - the player's (effective) plays with the value, ≥ 0
 * @param known - the player's (effective) known plays, ≥ count, > 0
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
      return { weight: probability, alpha, beta };
    });
  return new SharePosterior(parts, aroundRobustCentre(count, known, mean, kinds));
}

/**
 * The distribution whose interval is shown: its centre is drawn towards the field with `FIELD_TRUST` of the prior's
 * weight only, and it is as wide as that centre is wrong, on average over the players that the prior knows. With b the
 * own plays' part in the centre, n own plays and τ² the spread of players, both as shares of p (1 - p), that mean squared
 * error is b² / n + (1 - b)² τ².
 *
 * @see Morris (1983), J. Am. Stat. Assoc. 78, 47–55 (coverage averaged over the field); Efron & Morris (1972), J. Am. Stat.
 *   Assoc. 67, 130–139 (drawing less than the best average asks for, so that no player is wronged); Armstrong, Kolesár &
 *   Plagborg-Møller (2022), Econometrica 90, 2567–2602 (widths from the error of a drawn centre)
 */
function aroundRobustCentre(count: number, known: number, mean: number, kinds: readonly PlayerKind[]): BetaShape {
  const spread = kinds.reduce((sum, { probability, concentration }) => sum + probability / (concentration + 1), 0);
  const concentration = 1 / spread - 1;
  const trusted = FIELD_TRUST * concentration;
  const centre = (count + trusted * mean) / (known + trusted);
  const own = known / (known + trusted);
  const error = own / (known + trusted) + ((1 - own) * (1 - own)) / concentration;
  const plays = Math.max(FEWEST_PLAYS, 1 / error - 1);
  const [alpha, beta] = [plays * centre, plays * (1 - centre)];
  return { alpha, beta, logNorm: betaLogNorm(alpha, beta) };
}

/** A distribution that is worth less knows nothing. */
const FEWEST_PLAYS = 0.05;
