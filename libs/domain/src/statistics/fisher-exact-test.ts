import { bracketedRoot } from './bracketed-root.js';
import { conditionalDistribution, meanOf } from './conditional-distribution.js';
import { exactTails, type ExactTails } from './exact-tails.js';
import { assertTwoByTwo, type TwoByTwo } from './two-by-two.js';

export interface FisherResult extends ExactTails {
  /**
   * Conditional maximum-likelihood estimate: 0 or Infinity where the count lies at the end of its range,
   * null where the margins leave it no choice. Not the ratio ad / bc.
   */
  readonly oddsRatio: number | null;
}

// Of the log odds ratio.
const TOLERANCE = 1e-12;

/**
 * Fisher's exact test of independence in a 2 × 2 table, all margins held. `greater` speaks for an odds
 * ratio above 1. The two-sided value adds every table no more probable than the observed one. The mid-P
 * variants answer the test's caution. With a margin of 0 nothing is known: every p-value is 1, and the
 * one-sided mid-P ½.
 *
 * @param table - counts, integers ≥ 0
 * @returns exact and mid-P values, and the conditional odds ratio
 * @throws DomainError `stats.invalid_count`, `stats.invalid_shape`
 * @see Fisher (1935), J. R. Stat. Soc. 98, 39–82; Agresti (2002), Categorical Data Analysis, 2nd ed., 3.5
 */
export function fisherExactTest(table: TwoByTwo): FisherResult {
  return { ...fisherTails(table), oddsRatio: conditionalOddsRatio(table, table[0][0]) };
}

/** The p-values of `fisherExactTest` alone: the estimate takes many times their work. */
export function fisherTails(table: TwoByTwo): ExactTails {
  assertTwoByTwo('table', table);
  return exactTails(conditionalDistribution(table), table[0][0]);
}

function conditionalOddsRatio(table: TwoByTwo, observed: number): number | null {
  const { first, probabilities } = conditionalDistribution(table);
  const last = first + probabilities.length - 1;
  if (first === last) return null;
  if (observed === first) return 0;
  if (observed === last) return Number.POSITIVE_INFINITY;

  // At the estimate the expected count equals the observed one; it grows with the odds ratio.
  const excess = (logOddsRatio: number): number => meanOf(conditionalDistribution(table, logOddsRatio)) - observed;
  let reach = 1;
  while (excess(reach) < 0 || excess(-reach) > 0) reach *= 2;
  return Math.exp(bracketedRoot(excess, -reach, reach, TOLERANCE));
}
