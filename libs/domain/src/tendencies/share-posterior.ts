import { logGamma, normalQuantile } from '../statistics/distributions.js';
import type { Interval } from '../statistics/interval.js';
import { betaMixtureCdf } from './beta-mixture.js';
import { betaLogNorm, type BetaShape } from './beta-point.js';
import { quickBetaQuantile } from './beta-quantile.js';

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

/** What the posteriors of one player's shares of one dimension in one situation have in common. */
export class SharePosteriors {
  /** Plays of the prior that the interval's centre is drawn with. */
  readonly #trusted: number;
  /** Plays that the distribution is worth whose interval is shown, and the logarithm of their gamma function. */
  readonly #worth: number;
  readonly #logGammaOfWorth: number;

  /**
   * The interval shown: its centre is drawn towards the field with `FIELD_TRUST` of the prior's weight only, and it is as
   * wide as that centre is wrong, on average over the players that the prior knows. With b the own plays' part in the
   * centre, n own plays and τ² the spread of players, both as shares of p (1 - p), that mean squared error is
   * b² / n + (1 - b)² τ².
   *
   * @param known - the player's (effective) known plays, > 0
   * @param kinds - their probabilities add up to 1
   * @see Gelman et al. (2013), Bayesian Data Analysis, 3rd ed., section 3.4 (the posterior); Morris (1983), J. Am. Stat.
   *   Assoc. 78, 47–55 (coverage averaged over the field); Efron & Morris (1972), J. Am. Stat. Assoc. 67, 130–139
   *   (drawing less than the best average asks for, so that no player is wronged); Armstrong, Kolesár & Plagborg-Møller
   *   (2022), Econometrica 90, 2567–2602 (widths from the error of a drawn centre)
   */
  constructor(
    readonly known: number,
    readonly kinds: readonly PlayerKind[],
  ) {
    const spread = kinds.reduce((sum, { probability, concentration }) => sum + probability / (concentration + 1), 0);
    const concentration = 1 / spread - 1;
    this.#trusted = FIELD_TRUST * concentration;
    const own = known / (known + this.#trusted);
    const error = own / (known + this.#trusted) + ((1 - own) * (1 - own)) / concentration;
    this.#worth = Math.max(FEWEST_PLAYS, 1 / error - 1);
    this.#logGammaOfWorth = logGamma(this.#worth);
  }

  /**
   * @param count - the player's (effective) plays with the value, from 0 to `known`
   * @param mean  - prior share of the value, in (0, 1)
   */
  of(count: number, mean: number): SharePosterior {
    return new SharePosterior(count, mean, this);
  }

  /** The distribution whose interval is a share's. */
  around(count: number, mean: number): BetaShape {
    const centre = (count + this.#trusted * mean) / (this.known + this.#trusted);
    const [alpha, beta] = [this.#worth * centre, this.#worth * (1 - centre)];
    return { alpha, beta, logNorm: this.#logGammaOfWorth - logGamma(alpha) - logGamma(beta) };
  }
}

/** A distribution that is worth less knows nothing. */
const FEWEST_PLAYS = 0.05;

/**
 * What is believed of one share after the field and the player's own plays: a mixture of at most two Beta
 * distributions, one for each kind of player that the prior knows; and an interval that holds for players far off the
 * field as well.
 */
export class SharePosterior {
  /** The posterior's mean: the estimate with the smallest squared error. */
  readonly share: number;

  readonly #count: number;
  readonly #mean: number;
  readonly #all: SharePosteriors;

  /** See `SharePosteriors.of`. */
  constructor(count: number, mean: number, all: SharePosteriors) {
    this.#count = count;
    this.#mean = mean;
    this.#all = all;
    let share = 0;
    for (const { probability, concentration } of all.kinds) {
      share += (probability * (count + concentration * mean)) / (all.known + concentration);
    }
    this.share = share;
  }

  /**
   * Holds the truth at the stated confidence on average over players and situations, and nearly as often for shares far
   * off the field as for those near it, which the posterior's own quantiles do not (`FIELD_TRUST`). Always holds the
   * posterior's mean.
   *
   * @param confidence - probability in (0, 1)
   */
  interval(confidence: number): Interval {
    const around = this.#all.around(this.#count, this.#mean);
    const tail = (1 - confidence) / 2;
    const normal = normalQuantile(tail);
    return {
      lower: Math.min(this.share, quickBetaQuantile(tail, normal, around)),
      upper: Math.max(this.share, quickBetaQuantile(1 - tail, -normal, around)),
    };
  }

  /** Probability that the share is at most this; 0 below and 1 above [0, 1]. */
  probabilityBelow(share: number): number {
    const { kinds, known } = this.#all;
    const parts = kinds
      .filter(({ probability }) => probability > NEGLIGIBLE)
      .map(({ probability, concentration }) => {
        const alpha = this.#count + concentration * this.#mean;
        const beta = Math.max(0, known - this.#count) + concentration * (1 - this.#mean);
        return { weight: probability, alpha, beta, logNorm: betaLogNorm(alpha, beta) };
      });
    return betaMixtureCdf(share, parts);
  }
}
