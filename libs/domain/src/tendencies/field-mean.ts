import type { TwoConcentrations } from '../statistics/fit-two-concentrations.js';

/** How many plays a field's shares rest on, and how much they lie with a few players. */
export interface FieldTotals {
  /** ≥ 0. */
  readonly plays: number;
  /** Sum over players of the square of their plays. */
  readonly squares: number;
}

/**
 * The share of each value that a prior is centred on: the field's in the situation, to which its shares over all snaps
 * are added with the weight of one play, so that a thin situation is no extreme one; those in turn carry half a play a
 * value (Jeffreys's prior), so that nothing is impossible.
 *
 * @param counts  - plays of each value in the situation, missing ones 0
 * @param overall - plays of each value over all snaps
 * @param columns - values, ≥ 1
 * @returns shares > 0 that add up to 1
 */
export function fieldMean(counts: ArrayLike<number>, overall: ArrayLike<number>, columns: number): Float64Array {
  let inSituation = 0;
  let inAll = 0;
  for (let value = 0; value < columns; value += 1) {
    inSituation += counts[value] ?? 0;
    inAll += overall[value] ?? 0;
  }
  const mean = new Float64Array(columns);
  for (let value = 0; value < columns; value += 1) {
    const everywhere = ((overall[value] ?? 0) + 0.5) / (inAll + columns / 2);
    mean[value] = ((counts[value] ?? 0) + everywhere) / (inSituation + 1);
  }
  return mean;
}

/**
 * Independent plays that the pooled share of several players is worth, since the plays of one player are alike.
 *
 * @param field - plays and their squares
 * @param alike - correlation of two plays of one player, in [0, 1]: 1 / (concentration + 1)
 * @returns number in [0, plays]
 * @see Kish (1965), Survey Sampling, 5.4 and 8.2 (design effect of clusters)
 */
export function effectiveFieldPlays({ plays, squares }: FieldTotals, alike: number): number {
  return plays === 0 ? 0 : (plays * plays) / (plays * (1 - alike) + squares * alike);
}

/** Correlation of two plays of one player under the prior of two kinds, in (0, 1). */
export function likenessOf({ weight, tight, loose }: TwoConcentrations): number {
  return weight / (loose + 1) + (1 - weight) / (tight + 1);
}

/**
 * The concentration of a Dirichlet prior whose mean is itself only estimated: its variance is that of a player around
 * the mean and that of the mean together. Without it, intervals over a few dozen players are too narrow by several
 * points of coverage.
 *
 * @param concentration - of players around the mean, > 0
 * @param fieldPlays    - independent plays that the mean is worth, ≥ 0
 * @returns prior weight in plays, > 0 and at most `concentration`
 * @see Morris (1983), J. Am. Stat. Assoc. 78, 47–55 (why the mean's uncertainty belongs into the interval)
 */
export function concentrationAroundEstimate(concentration: number, fieldPlays: number): number {
  const ofPlayer = 1 / (concentration + 1);
  const ofMean = (1 - ofPlayer) / (fieldPlays + 1);
  // Only a mean that rests on nothing leaves nothing; a hundredth of a play keeps the prior proper.
  const around = 1 / (ofPlayer + ofMean) - 1;
  return around > 0.01 ? around : 0.01;
}
