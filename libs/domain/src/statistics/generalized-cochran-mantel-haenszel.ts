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
  const parts = strata.filter((table) => compensatedSum(table.flat()) >= 2).map(stratumParts);
  const { value, rank } =
    parts.length === 0
      ? { value: 0, rank: 0 }
      : quadraticForm(
          addVectors(parts.map(({ excess }) => excess)),
          addMatrices(parts.map(({ covariance }) => covariance)),
        );
  if (rank === 0) {
    throw new DomainError('stats.undefined_statistic', 'no stratum has two rows and two columns in use', {
      strata: strata.length,
    });
  }
  return { statistic: value, degreesOfFreedom: rank, pValue: chiSquareUpperTail(value, rank) };
}

function stratumParts(table: Stratum): { excess: number[]; covariance: number[][] } {
  const rowTotals = table.map(compensatedSum);
  const columnTotals = elementAt(table, 0).map((_, column) =>
    compensatedSum(table.map((row) => elementAt(row, column))),
  );
  const total = compensatedSum(rowTotals);

  const cells = table.slice(0, -1).flatMap((row, rowIndex) =>
    row.slice(0, -1).map((count, columnIndex) => ({
      rowIndex,
      columnIndex,
      excess: count - (elementAt(rowTotals, rowIndex) * elementAt(columnTotals, columnIndex)) / total,
    })),
  );
  const spread = (totals: readonly number[], first: number, second: number): number =>
    elementAt(totals, first) * ((first === second ? total : 0) - elementAt(totals, second));
  return {
    excess: cells.map(({ excess }) => excess),
    covariance: cells.map((first) =>
      cells.map(
        (second) =>
          (spread(rowTotals, first.rowIndex, second.rowIndex) / total ** 2) *
          (spread(columnTotals, first.columnIndex, second.columnIndex) / (total - 1)),
      ),
    ),
  };
}

function addVectors(vectors: readonly (readonly number[])[]): number[] {
  return elementAt(vectors, 0).map((_, index) => compensatedSum(vectors.map((vector) => elementAt(vector, index))));
}

function addMatrices(matrices: readonly (readonly (readonly number[])[])[]): number[][] {
  return elementAt(matrices, 0).map((_, row) => addVectors(matrices.map((matrix) => elementAt(matrix, row))));
}
