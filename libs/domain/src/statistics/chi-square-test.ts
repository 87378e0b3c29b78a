import { DomainError } from '../domain-error.js';
import { compensatedSum } from './compensated-sum.js';
import { chiSquareUpperTail } from './distributions.js';
import { elementAt } from './element-at.js';
import { assertCount, assertCountTable, assertOpenShares, assertSameLength } from './guards.js';

export interface ChiSquareResult {
  /** Pearson's statistic, without continuity correction. */
  readonly pearson: number;
  readonly pearsonPValue: number;
  /** Likelihood-ratio statistic 2 Σ O ln(O / E), natural logarithms. */
  readonly g: number;
  readonly gPValue: number;
  readonly degreesOfFreedom: number;
  /** Counts expected under the hypothesis, in the shape of the counts; below 5 somewhere, prefer an exact test. */
  readonly expected: readonly (readonly number[])[];
}

export interface IndependenceResult extends ChiSquareResult {
  /** Deviations in standard deviations, rows × columns: near ±2 and beyond a cell stands out. */
  readonly standardizedResiduals: readonly (readonly number[])[];
  /** Strength of association in [0, 1]. */
  readonly cramersV: number;
  /** Pearson's statistic with Yates's half count taken off each deviation, for 2 × 2 tables only. */
  readonly yates: { readonly statistic: number; readonly pValue: number } | null;
}

/**
 * Pearson's chi-square and the G test of independence between the rows and the columns of a table.
 *
 * @param table - counts, rows × columns, integers ≥ 0, at least 2 × 2
 * @throws DomainError `stats.invalid_count`, `stats.invalid_shape`; `stats.undefined_statistic` where a row
 *         or a column is empty
 * @see Agresti (2007), An Introduction to Categorical Data Analysis, 2nd ed., 2.4; Yates (1934), J. R. Stat. Soc. Suppl. 1, 217–235
 */
export function chiSquareTest(table: readonly (readonly number[])[]): IndependenceResult {
  assertCountTable('table', table, { minRows: 2, minColumns: 2 });
  const rows = table.map(compensatedSum);
  const columns = elementAt(table, 0).map((_, column) => compensatedSum(table.map((row) => elementAt(row, column))));
  if ([...rows, ...columns].includes(0)) {
    throw new DomainError('stats.undefined_statistic', 'a row or a column is empty', { rows, columns });
  }

  const total = compensatedSum(rows);
  const expected = rows.map((row) => columns.map((column) => (row * column) / total));
  const result = compare(table, expected, (rows.length - 1) * (columns.length - 1));
  const smaller = Math.min(rows.length, columns.length);
  return {
    ...result,
    standardizedResiduals: table.map((row, rowIndex) =>
      row.map((count, columnIndex) => {
        const cell = elementAt(elementAt(expected, rowIndex), columnIndex);
        const free = (1 - elementAt(rows, rowIndex) / total) * (1 - elementAt(columns, columnIndex) / total);
        return (count - cell) / Math.sqrt(cell * free);
      }),
    ),
    cramersV: Math.sqrt(result.pearson / (total * (smaller - 1))),
    yates: rows.length === 2 && columns.length === 2 ? yatesOf(table, expected) : null,
  };
}

/**
 * The same tests of counts against shares that were fixed beforehand.
 *
 * @param counts - integers ≥ 0, not all 0
 * @param shares - expected share of each, each > 0, adding up to 1; at least two
 * @throws DomainError `stats.invalid_count`, `stats.invalid_shape`, `stats.invalid_probability`;
 *         `stats.undefined_statistic` without any play
 * @see Pearson (1900), Philosophical Magazine 50, 157–175
 */
export function goodnessOfFitTest(counts: readonly number[], shares: readonly number[]): ChiSquareResult {
  assertOpenShares('shares', shares);
  assertSameLength('counts', counts, shares.length);
  for (const count of counts) assertCount('counts', count, { min: 0 });
  const total = compensatedSum(counts);
  if (total === 0) throw new DomainError('stats.undefined_statistic', 'no play was counted');
  return compare([counts], [shares.map((share) => share * total)], counts.length - 1);
}

function compare(
  counts: readonly (readonly number[])[],
  expected: readonly (readonly number[])[],
  degreesOfFreedom: number,
): ChiSquareResult {
  const pairs = pairUp(counts, expected);
  const pearson = compensatedSum(pairs.map(({ count, cell }) => (count - cell) ** 2 / cell));
  const terms = pairs.map(({ count, cell }) => (count === 0 ? 0 : 2 * count * Math.log(count / cell)));
  // A perfect fit leaves rounding below 0.
  const g = Math.max(0, compensatedSum(terms));
  return {
    pearson,
    pearsonPValue: chiSquareUpperTail(pearson, degreesOfFreedom),
    g,
    gPValue: chiSquareUpperTail(g, degreesOfFreedom),
    degreesOfFreedom,
    expected,
  };
}

function yatesOf(
  table: readonly (readonly number[])[],
  expected: readonly (readonly number[])[],
): { statistic: number; pValue: number } {
  const statistic = compensatedSum(
    pairUp(table, expected).map(({ count, cell }) => Math.max(0, Math.abs(count - cell) - 0.5) ** 2 / cell),
  );
  return { statistic, pValue: chiSquareUpperTail(statistic, 1) };
}

function pairUp(
  counts: readonly (readonly number[])[],
  expected: readonly (readonly number[])[],
): { count: number; cell: number }[] {
  const cells = expected.flat();
  return counts.flat().map((count, index) => ({ count, cell: elementAt(cells, index) }));
}
