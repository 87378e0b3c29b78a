import { DomainError } from '../domain-error.js';
import { compensatedSum } from './compensated-sum.js';
import { chiSquareUpperTail } from './distributions.js';
import { elementAt } from './element-at.js';
import { assertCountTable, assertLength } from './guards.js';
import { quadraticForm } from './quadratic-form.js';

export interface GeneralAssociation {
  readonly statistic: number;
  /** (rows - 1) × (columns - 1) where the data fill them; less where categories never vary together. */
  readonly degreesOfFreedom: number;
  readonly pValue: number;
}

type Stratum = readonly (readonly number[])[];

/**
 * Is anything about the columns (say: the call) different between the rows (say: cue present or
 * absent), once the stratum is held? Cochran-Mantel-Haenszel for tables of any size, general
 * association: no order of categories is assumed. For 2 × 2 tables it is the plain test without
 * continuity correction.
 *
 * @param strata - tables of counts, rows × columns, all of one size, at least 2 × 2; a stratum of fewer
 *                 than two plays says nothing and is left out
 * @returns chi-square statistic with its degrees of freedom and p-value
 * @throws DomainError `stats.invalid_count`, `stats.invalid_shape`;
 *         `stats.undefined_statistic` when no stratum has two rows and two columns in use
 * @see Landis, Heyman & Koch (1978), Int. Stat. Rev. 46, 237–254; Agresti (2002), Categorical Data Analysis, 2nd ed., 7.5.3
 */
export function generalizedCochranMantelHaenszel(strata: readonly Stratum[]): GeneralAssociation {
  assertLength('strata', strata, { min: 1 });
  const columns = elementAt(strata, 0)[0]?.length ?? 0;
  for (const table of strata) {
    assertCountTable('strata', table, { rows: elementAt(strata, 0).length, columns, minRows: 2, minColumns: 2 });
  }

  // The last row and column follow from the margins and would only repeat the others.
  const rows = elementAt(strata, 0).length - 1;
  const size = rows * (columns - 1);
  const excess = new Array<number>(size).fill(0);
  const covariance = Array.from({ length: size }, () => new Array<number>(size).fill(0));
  for (const table of strata) addStratum(table, excess, covariance);
  const { value, rank } = quadraticForm(excess, covariance);
  if (rank === 0) {
    throw new DomainError('stats.undefined_statistic', 'no stratum has two rows and two columns in use', {
      strata: strata.length,
    });
  }
  return { statistic: value, degreesOfFreedom: rank, pValue: chiSquareUpperTail(value, rank) };
}

/** Adds a stratum's deviations from independence, and their covariance, to the sums; hundreds of strata pass here. */
function addStratum(table: Stratum, excess: number[], covariance: readonly number[][]): void {
  const rowTotals = table.map(compensatedSum);
  const columnTotals = elementAt(table, 0).map((_, column) =>
    compensatedSum(table.map((row) => elementAt(row, column))),
  );
  const total = compensatedSum(rowTotals);
  if (total < 2) return;

  const freeColumns = columnTotals.length - 1;
  const rowSpread = spreadOf(rowTotals, total);
  const columnSpread = spreadOf(columnTotals, total);
  const scale = 1 / (total ** 2 * (total - 1));
  for (const [place, target] of covariance.entries()) {
    const [row, column] = [Math.floor(place / freeColumns), place % freeColumns];
    const expected = (elementAt(rowTotals, row) * elementAt(columnTotals, column)) / total;
    excess[place] = elementAt(excess, place) + elementAt(elementAt(table, row), column) - expected;
    const [ofRow, ofColumn] = [elementAt(rowSpread, row), elementAt(columnSpread, column)];
    for (const [other, sum] of target.entries()) {
      const shared = elementAt(ofRow, Math.floor(other / freeColumns)) * elementAt(ofColumn, other % freeColumns);
      target[other] = sum + shared * scale;
    }
  }
}

function spreadOf(totals: readonly number[], total: number): number[][] {
  return totals.map((first, row) => totals.map((second, column) => first * ((row === column ? total : 0) - second)));
}
