import { DomainError } from '../domain-error.js';

/**
 * Lower triangular factor L of a symmetric positive definite matrix, A = L L′, and the logarithm of A's determinant.
 * Works in place on the lower triangle; what stood above the diagonal is left as it was.
 *
 * @param matrix - size × size, row by row
 * @returns log determinant
 * @throws DomainError `stats.no_convergence` where the matrix is not positive definite
 * @see Golub & Van Loan (2013), Matrix Computations, 4th ed., 4.2
 */
export function choleskyInPlace(matrix: Float64Array, size: number): number {
  let logDeterminant = 0;
  for (let row = 0; row < size; row += 1) {
    const ofRow = matrix.subarray(row * size, row * size + row + 1);
    for (let column = 0; column < row; column += 1) {
      const ofColumn = matrix.subarray(column * size, column * size + column + 1);
      let sum = ofRow[column] ?? 0;
      for (let at = 0; at < column; at += 1) sum -= (ofRow[at] ?? 0) * (ofColumn[at] ?? 0);
      ofRow[column] = sum / (ofColumn[column] ?? 1);
    }
    let rest = ofRow[row] ?? 0;
    for (let at = 0; at < row; at += 1) rest -= (ofRow[at] ?? 0) ** 2;
    if (!(rest > 0)) {
      throw new DomainError('stats.no_convergence', 'a matrix is not positive definite', { row, rest });
    }
    ofRow[row] = Math.sqrt(rest);
    logDeterminant += Math.log(rest);
  }
  return logDeterminant;
}

/**
 * Inverse of a lower triangular factor, itself lower triangular and row by row; 0 above the diagonal. With it
 * A⁻¹ = L⁻′ L⁻¹, so that x′ A⁻¹ x is the squared length of L⁻¹ x.
 *
 * @param factor - as `choleskyInPlace` leaves it
 */
export function inverseOfFactor(factor: Float64Array, size: number): Float64Array {
  const inverse = new Float64Array(size * size);
  for (let row = 0; row < size; row += 1) {
    const ofRow = inverse.subarray(row * size, row * size + row + 1);
    for (let above = 0; above < row; above += 1) {
      const weight = factor[row * size + above] ?? 0;
      if (weight === 0) continue;
      const ofAbove = inverse.subarray(above * size, above * size + above + 1);
      for (let column = 0; column <= above; column += 1) {
        ofRow[column] = (ofRow[column] ?? 0) - weight * (ofAbove[column] ?? 0);
      }
    }
    const pivot = factor[row * size + row] ?? 1;
    for (let column = 0; column < row; column += 1) ofRow[column] = (ofRow[column] ?? 0) / pivot;
    ofRow[row] = 1 / pivot;
  }
  return inverse;
}

/** A⁻¹ x from the inverse of A's factor. */
export function solveByInverse(inverse: Float64Array, size: number, vector: Float64Array): Float64Array {
  const solution = new Float64Array(size);
  for (let row = 0; row < size; row += 1) {
    const ofRow = inverse.subarray(row * size, row * size + row + 1);
    let sum = 0;
    for (let column = 0; column <= row; column += 1) sum += (ofRow[column] ?? 0) * (vector[column] ?? 0);
    for (let column = 0; column <= row; column += 1) {
      solution[column] = (solution[column] ?? 0) + sum * (ofRow[column] ?? 0);
    }
  }
  return solution;
}
