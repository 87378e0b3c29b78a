import { DomainError } from '../domain-error.js';
import { conditionalDistribution, convolve, type IntegerDistribution } from './conditional-distribution.js';
import { exactTails, type ExactTails } from './exact-tails.js';
import { assertTwoByTwo, marginsOf, type TwoByTwo } from './two-by-two.js';

/**
 * Exact conditional test that an odds ratio common to all strata is 1: the sum of the upper left counts
 * against its distribution with every stratum's margins held, by convolution of hypergeometrics. For
 * strata too sparse for Cochran-Mantel-Haenszel (see its Mantel-Fleiss figure).
 *
 * Work grows with the square of the total count of the smaller margins; a thousand plays take milliseconds.
 *
 * @param strata - 2 × 2 tables of counts, same rows and columns throughout; strata with an empty margin say nothing
 * @returns exact and mid-P values; `greater` speaks for an odds ratio above 1
 * @throws DomainError `stats.invalid_count`, `stats.invalid_shape`;
 *         `stats.undefined_statistic` when no stratum has all four margins above 0
 * @see Birch (1964), J. R. Stat. Soc. B 26, 313–324; Mehta, Patel & Gray (1985), J. Am. Stat. Assoc. 80, 969–973
 */
export function stratifiedExactTest(strata: readonly TwoByTwo[]): ExactTails {
  for (const table of strata) assertTwoByTwo('strata', table);
  const telling = strata.filter(isTelling);
  if (telling.length === 0) {
    throw new DomainError('stats.undefined_statistic', 'no stratum has all four margins above 0', {
      strata: strata.length,
    });
  }

  const nothing: IntegerDistribution = { first: 0, probabilities: [1] };
  // Small ones first: the long distribution is then walked by the last few strata only.
  const distributions = telling
    .map((table) => conditionalDistribution(table))
    .toSorted((left, right) => left.probabilities.length - right.probabilities.length);
  const observed = telling.reduce((sum, table) => sum + table[0][0], 0);
  return exactTails(distributions.reduce(convolve, nothing), observed);
}

/** Whether a stratum's margins leave its counts any choice. */
export function isTelling(table: TwoByTwo): boolean {
  const { firstRow, secondRow, firstColumn, secondColumn } = marginsOf(table);
  return Math.min(firstRow, secondRow, firstColumn, secondColumn) > 0;
}
