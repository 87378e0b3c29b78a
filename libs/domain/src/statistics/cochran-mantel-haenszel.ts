import { DomainError } from '../domain-error.js';
import { compensatedSum } from './compensated-sum.js';
import { chiSquareUpperTail } from './distributions.js';
import { isTelling } from './stratified-exact-test.js';
import { assertTwoByTwo, marginsOf, type TwoByTwo } from './two-by-two.js';

export interface CochranMantelHaenszelOptions {
  /** Half a count off the distance, at most down to 0: fewer false findings in sparse strata. */
  readonly continuity: boolean;
}

export interface CochranMantelHaenszelResult {
  /** Chi-square with one degree of freedom. */
  readonly statistic: number;
  readonly pValue: number;
  /** Mantel-Haenszel estimate, ≥ 0; Infinity where no stratum speaks against, null where none speaks at all. */
  readonly oddsRatio: number | null;
  /** Upper left counts beyond what independence expects, in counts. */
  readonly excess: number;
  /** Mantel-Fleiss: how far the expected sum lies from the nearer end of its range, in counts; below 5 use the exact test. */
  readonly mantelFleiss: number;
  /** Strata whose margins leave any choice. */
  readonly strata: number;
}

/**
 * Test of independence in 2 × 2 tables, within strata and pooled over them: what remains of a tell once
 * the situation is held. Strata with an empty margin say nothing and are left out.
 *
 * @param strata  - tables of counts, same rows and columns throughout
 * @param options - with or without continuity correction: the caller says which
 * @returns statistic, p-value, common odds ratio, and the Mantel-Fleiss figure
 * @throws DomainError `stats.invalid_count`, `stats.invalid_shape`;
 *         `stats.undefined_statistic` when no stratum has all four margins above 0
 * @see Mantel & Haenszel (1959), J. Natl. Cancer Inst. 22, 719–748; Mantel & Fleiss (1980), Am. J. Epidemiol. 112, 129–134
 */
export function cochranMantelHaenszel(
  strata: readonly TwoByTwo[],
  { continuity }: CochranMantelHaenszelOptions,
): CochranMantelHaenszelResult {
  for (const table of strata) assertTwoByTwo('strata', table);
  const telling = strata.filter(isTelling);
  if (telling.length === 0) {
    throw new DomainError('stats.undefined_statistic', 'no stratum has all four margins above 0', {
      strata: strata.length,
    });
  }

  const parts = telling.map(stratumParts);
  const sumOf = (pick: (part: StratumParts) => number): number => compensatedSum(parts.map(pick));
  const excess = sumOf(({ observed, expected }) => observed - expected);
  const distance = Math.max(0, Math.abs(excess) - (continuity ? 0.5 : 0));
  const statistic = distance ** 2 / sumOf(({ variance }) => variance);
  const [speaksFor, speaksAgainst] = [sumOf(({ diagonal }) => diagonal), sumOf(({ offDiagonal }) => offDiagonal)];
  return {
    statistic,
    pValue: chiSquareUpperTail(statistic, 1),
    oddsRatio: speaksFor === 0 && speaksAgainst === 0 ? null : speaksFor / speaksAgainst,
    excess,
    mantelFleiss: Math.min(
      sumOf(({ expected, lowest }) => expected - lowest),
      sumOf(({ expected, highest }) => highest - expected),
    ),
    strata: telling.length,
  };
}

interface StratumParts {
  readonly observed: number;
  readonly expected: number;
  readonly variance: number;
  readonly lowest: number;
  readonly highest: number;
  readonly diagonal: number;
  readonly offDiagonal: number;
}

function stratumParts(table: TwoByTwo): StratumParts {
  const [[a, b], [c, d]] = table;
  const { firstRow, secondRow, firstColumn, secondColumn, total } = marginsOf(table);
  return {
    observed: a,
    expected: (firstRow * firstColumn) / total,
    variance: ((firstRow * firstColumn) / total) * ((secondRow * secondColumn) / total / (total - 1)),
    lowest: Math.max(0, firstColumn - secondRow),
    highest: Math.min(firstRow, firstColumn),
    diagonal: (a * d) / total,
    offDiagonal: (b * c) / total,
  };
}
