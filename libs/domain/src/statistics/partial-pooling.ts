import { bracketedRoot } from './bracketed-root.js';
import { compensatedSum } from './compensated-sum.js';
import { elementAt } from './element-at.js';
import { assertFinite, assertLength, assertPositive } from './guards.js';

export interface GroupEstimate {
  readonly value: number;
  readonly standardError: number;
}

export interface PooledGroup {
  /** In the values' unit, between the group's own value and the mean. */
  readonly estimate: number;
  /** Posterior standard deviation with mean and between-group variance taken as known. */
  readonly standardDeviation: number;
  /** How much of the group's own value counts, in [0, 1). */
  readonly weight: number;
}

export interface PartialPooling {
  readonly mean: number;
  readonly meanStandardError: number;
  /** Variance of the true values between groups, ≥ 0, in the square of the values' unit. */
  readonly betweenVariance: number;
  readonly groups: readonly PooledGroup[];
}

const GRID_STEPS = 200;
const RELATIVE_TOLERANCE = 1e-10;

/**
 * Pools groups as far as the data say they are alike: a normal distribution of true values between
 * groups, its variance by maximum marginal likelihood with the mean profiled out. The likelihood can
 * have several maxima, so a grid of 200 standard deviations finds the highest and a bracketed root of
 * the slope refines it to ten digits.
 *
 * @param groups - values with their standard errors (> 0), at least two groups
 * @returns mean, between-group variance, and each group's pooled estimate, in order
 * @throws DomainError `stats.invalid_shape`, `stats.invalid_number`
 * @see Gelman et al. (2013), Bayesian Data Analysis, 3rd ed., 5.4; van Houwelingen, Arends & Stijnen (2002), Stat. Med. 21, 589–624
 */
export function partialPooling(groups: readonly GroupEstimate[]): PartialPooling {
  assertLength('groups', groups, { min: 2 });
  for (const { value, standardError } of groups) {
    assertFinite('value', value);
    assertPositive('standardError', standardError);
  }

  const betweenVariance = likeliestVariance(groups);
  const { mean, weights } = profile(groups, betweenVariance);
  return {
    mean,
    meanStandardError: 1 / Math.sqrt(compensatedSum(weights)),
    betweenVariance,
    groups: groups.map(({ value, standardError }) => {
      const weight = betweenVariance / (betweenVariance + standardError ** 2);
      return {
        estimate: mean + weight * (value - mean),
        standardDeviation: Math.sqrt(weight) * standardError,
        weight,
      };
    }),
  };
}

function profile(groups: readonly GroupEstimate[], between: number): { mean: number; weights: readonly number[] } {
  const weights = groups.map(({ standardError }) => 1 / (between + standardError ** 2));
  const weighted = compensatedSum(groups.map(({ value }, index) => value * elementAt(weights, index)));
  return { mean: weighted / compensatedSum(weights), weights };
}

function likeliestVariance(groups: readonly GroupEstimate[]): number {
  const values = groups.map(({ value }) => value);
  // Beyond the range of the values the likelihood only falls: there even the largest deviation is too small.
  const range = Math.max(...values) - Math.min(...values);
  if (range === 0) return 0;

  const grid = Array.from({ length: GRID_STEPS + 1 }, (_, step) => ((range * step) / GRID_STEPS) ** 2);
  const heights = grid.map((between) => logLikelihood(groups, between));
  const best = heights.indexOf(Math.max(...heights));
  const low = elementAt(grid, Math.max(0, best - 1));
  const high = elementAt(grid, Math.min(GRID_STEPS, best + 1));
  const slopeAt = (between: number): number => slope(groups, between);
  if (slopeAt(low) <= 0) return low;
  if (slopeAt(high) >= 0) return high;
  return bracketedRoot(slopeAt, low, high, RELATIVE_TOLERANCE * high);
}

function logLikelihood(groups: readonly GroupEstimate[], between: number): number {
  const { mean, weights } = profile(groups, between);
  return compensatedSum(
    groups.map(({ value }, index) => {
      const weight = elementAt(weights, index);
      return (Math.log(weight) - weight * (value - mean) ** 2) / 2;
    }),
  );
}

/** Twice the derivative of the profile log-likelihood; the mean is at its best, so it adds nothing. */
function slope(groups: readonly GroupEstimate[], between: number): number {
  const { mean, weights } = profile(groups, between);
  return compensatedSum(
    groups.map(({ value }, index) => {
      const weight = elementAt(weights, index);
      return weight ** 2 * (value - mean) ** 2 - weight;
    }),
  );
}
