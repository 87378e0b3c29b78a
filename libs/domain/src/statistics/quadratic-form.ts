import { elementAt } from './element-at.js';

// Of the largest variance: what is left of a variance after the others are taken out is 0 or well above this.
const RANK_TOLERANCE = 1e-10;

/**
 * Distance of a vector from 0 in units of its covariance, v′ C⁻ v, with as many dimensions as the
 * covariance really has. Elimination takes the largest remaining variance first, so a covariance of
 * less than full rank (a category that some strata never saw) ends early instead of dividing by 0.
 *
 * @param vector     - any length
 * @param covariance - symmetric, positive semidefinite, same size
 * @returns the form, ≥ 0, and the rank
 * @see Golub & Van Loan (2013), Matrix Computations, 4th ed., 4.2.8 (pivoted Cholesky)
 */
export function quadraticForm(
  vector: readonly number[],
  covariance: readonly (readonly number[])[],
): { value: number; rank: number } {
  const rest = [...vector];
  const matrix = covariance.map((row) => [...row]);
  const open = new Set(rest.keys());
  const largest = Math.max(0, ...matrix.map((row, index) => elementAt(row, index)));

  let value = 0;
  let rank = 0;
  while (open.size > 0) {
    const pivot = [...open].reduce((best, index) =>
      entry(matrix, index, index) > entry(matrix, best, best) ? index : best,
    );
    const variance = entry(matrix, pivot, pivot);
    if (variance <= RANK_TOLERANCE * largest) break;

    open.delete(pivot);
    rank += 1;
    value += elementAt(rest, pivot) ** 2 / variance;
    for (const row of open) {
      const factor = entry(matrix, row, pivot) / variance;
      rest[row] = elementAt(rest, row) - factor * elementAt(rest, pivot);
      const target = elementAt(matrix, row);
      for (const column of open) target[column] = elementAt(target, column) - factor * entry(matrix, pivot, column);
    }
  }
  return { value, rank };
}

function entry(matrix: readonly (readonly number[])[], row: number, column: number): number {
  return elementAt(elementAt(matrix, row), column);
}
