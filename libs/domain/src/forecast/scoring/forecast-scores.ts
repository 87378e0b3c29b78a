import { compensatedSum } from '../../statistics/compensated-sum.js';
import { DomainError } from '../../domain-error.js';

/** Forecasts of plays: probabilities of each class, and which class was seen. */
export interface ScoredPlays {
  /** plays x classes, each play's adding up to 1. */
  readonly probabilities: Float64Array;
  /** One a play, 0 to classes - 1. */
  readonly outcome: Int32Array;
  readonly classes: number;
}

/** Log loss takes no probability to be smaller than this, so that one forecast of 0 does not make it infinite. */
export const LEAST_PROBABILITY = 1e-15;

/** Log loss of each play in nats: minus the logarithm of the probability that was given to what happened. */
export function playLosses({ probabilities, outcome, classes }: ScoredPlays): Float64Array {
  assertForecasts(probabilities, outcome, classes);
  return Float64Array.from(outcome, (seen, play) => {
    const probability = probabilities[play * classes + seen] ?? 0;
    return -Math.log(Math.min(1, Math.max(LEAST_PROBABILITY, probability)));
  });
}

/** Squared error of each play, whose mean is Brier's score: of two classes that of the second, of more the sum over them. */
export function playSquares({ probabilities, outcome, classes }: ScoredPlays): Float64Array {
  assertForecasts(probabilities, outcome, classes);
  return Float64Array.from(outcome, (seen, play) => {
    let sum = 0;
    for (let k = 0; k < classes; k += 1) {
      sum += ((probabilities[play * classes + k] ?? 0) - (k === seen ? 1 : 0)) ** 2;
    }
    return classes === 2 ? sum / 2 : sum;
  });
}

export interface ForecastScores {
  readonly plays: number;
  /** Mean log loss in nats. */
  readonly logLoss: number;
  /**
   * Mean squared error. Of two classes that of the second class, between 0 and 1 (the usual binary score); of more the
   * sum over the classes, between 0 and 2 (Brier's own).
   */
  readonly brier: number;
  /** Share of plays on which the likeliest class was what happened; ties go to the first class. */
  readonly accuracy: number;
}

/**
 * @throws DomainError `stats.invalid_shape` without plays, or when the arrays do not fit each other
 * @see Brier (1950), Mon. Weather Rev. 78, 1–3; Good (1952), J. R. Stat. Soc. B 14, 107–114
 */
export function forecastScores(scored: ScoredPlays): ForecastScores {
  const { probabilities, outcome, classes } = scored;
  const losses = playLosses(scored);
  const plays = outcome.length;
  let hits = 0;
  outcome.forEach((seen, play) => {
    const base = play * classes;
    let likeliest = 0;
    for (let k = 1; k < classes; k += 1) {
      if ((probabilities[base + k] ?? 0) > (probabilities[base + likeliest] ?? 0)) likeliest = k;
    }
    if (likeliest === seen) hits += 1;
  });
  return {
    plays,
    logLoss: compensatedSum(losses) / plays,
    brier: compensatedSum(playSquares(scored)) / plays,
    accuracy: hits / plays,
  };
}

function assertForecasts(probabilities: Float64Array, outcome: Int32Array, classes: number): void {
  if (outcome.length === 0 || classes < 2 || probabilities.length !== outcome.length * classes) {
    throw new DomainError('stats.invalid_shape', 'forecasts are plays x classes, with at least one play', {
      probabilities: probabilities.length,
      plays: outcome.length,
      classes,
    });
  }
}
