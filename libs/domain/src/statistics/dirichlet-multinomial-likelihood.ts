import { compensatedSum } from './compensated-sum.js';
import { countTails, logRisingBend, logRisingSlope, logRisingSum } from './count-tails.js';
import { elementAt } from './element-at.js';

/** The log-likelihood of Dirichlet-multinomial parameters, without multinomial coefficients, and the ways up it. */
export interface DirichletMultinomialLikelihood {
  at(alpha: readonly number[]): number;
  slopes(alpha: readonly number[]): number[];
  /** Minka's fixed point: never lowers the likelihood, and is slow. */
  fixedPoint(alpha: readonly number[]): number[];
  /** A full Newton step, or null where the likelihood is not curved downwards and Newton would mislead. */
  newtonStep(alpha: readonly number[]): number[] | null;
}

/**
 * The likelihood over groups, each with its own draw of shares from one Dirichlet distribution.
 *
 * @param counts - groups × categories, integers ≥ 0; every category used by some group
 * @returns functions of alpha, one parameter > 0 per category
 * @see Minka (2000, rev. 2012), Estimating a Dirichlet distribution, eq. (53) to (60)
 */
export function dirichletMultinomialLikelihood(counts: readonly (readonly number[])[]): DirichletMultinomialLikelihood {
  const once = counts.map(() => 1);
  const sizeTails = countTails(counts.map(compensatedSum), once);
  const categoryTails = elementAt(counts, 0).map((_, category) =>
    countTails(
      counts.map((row) => elementAt(row, category)),
      once,
    ),
  );
  const perCategory = (of: (tails: readonly number[], start: number) => number, alpha: readonly number[]): number[] =>
    categoryTails.map((tails, category) => of(tails, elementAt(alpha, category)));

  const slopes = (alpha: readonly number[]): number[] => {
    const common = logRisingSlope(sizeTails, compensatedSum(alpha));
    return perCategory(logRisingSlope, alpha).map((slope) => slope - common);
  };

  return {
    slopes,
    at: (alpha) =>
      compensatedSum([...perCategory(logRisingSum, alpha), -logRisingSum(sizeTails, compensatedSum(alpha))]),
    fixedPoint: (alpha) => {
      const common = logRisingSlope(sizeTails, compensatedSum(alpha));
      return perCategory(logRisingSlope, alpha).map((slope, category) => (elementAt(alpha, category) * slope) / common);
    },
    newtonStep: (alpha) => {
      // The curvature is a diagonal plus a constant, so its inverse costs no more than the slopes.
      const bends = perCategory(logRisingBend, alpha);
      const common = logRisingBend(sizeTails, compensatedSum(alpha));
      const surplus = compensatedSum(bends.map((bend) => 1 / bend)) - 1 / common;
      if (surplus >= 0) return null;
      const rise = slopes(alpha);
      const shared = compensatedSum(rise.map((slope, category) => slope / elementAt(bends, category))) / surplus;
      return rise.map((slope, category) => (slope - shared) / elementAt(bends, category));
    },
  };
}
