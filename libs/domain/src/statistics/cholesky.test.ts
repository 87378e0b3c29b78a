import fc from 'fast-check';
import { choleskyInPlace, inverseOfFactor, solveByInverse } from './cholesky.js';

/** The lower triangle, row by row. */
const lower = (matrix: Float64Array, size: number): number[] =>
  Array.from({ length: size }, (_, row) => [...matrix.subarray(row * size, row * size + row + 1)]).flat();

const aFactor = fc.integer({ min: 1, max: 6 }).chain((size) =>
  fc
    .array(fc.double({ min: -2, max: 2, noNaN: true }), { minLength: size * size, maxLength: size * size })
    .map((values) => {
      const factor = new Float64Array(size * size);
      for (let row = 0; row < size; row += 1) {
        for (let column = 0; column < row; column += 1) factor[row * size + column] = values[row * size + column] ?? 0;
        factor[row * size + row] = 0.5 + Math.abs(values[row * size + row] ?? 0);
      }
      return { size, factor };
    }),
);

function squared(factor: Float64Array, size: number): Float64Array {
  return Float64Array.from({ length: size * size }, (_, at) => {
    const [row, column] = [Math.floor(at / size), at % size];
    let sum = 0;
    for (let inner = 0; inner < size; inner += 1) {
      sum += (factor[row * size + inner] ?? 0) * (factor[column * size + inner] ?? 0);
    }
    return sum;
  });
}

describe("Cholesky's factor", () => {
  // Higham (2002), Accuracy and Stability of Numerical Algorithms, 2nd ed., section 28.4, from memory: the Pascal matrix is
  // the product of the triangle of binomial coefficients with its transpose, so its determinant is 1.
  it('of the Pascal matrix is the triangle of binomial coefficients', () => {
    const pascal = Float64Array.from([1, 1, 1, 1, 1, 2, 3, 4, 1, 3, 6, 10, 1, 4, 10, 20]);
    expect(choleskyInPlace(pascal, 4)).toBeCloseTo(0, 12);
    expect(lower(pascal, 4)).toEqual([1, 1, 1, 1, 2, 1, 1, 3, 3, 1]);
  });

  it('gives back the factor that a matrix was made from, with its determinant', () => {
    fc.assert(
      fc.property(aFactor, ({ size, factor }) => {
        const matrix = squared(factor, size);
        const logDeterminant = choleskyInPlace(matrix, size);
        lower(matrix, size).forEach((value, at) => {
          expect(value).toBeCloseTo(lower(factor, size)[at] ?? Number.NaN, 6);
        });
        const diagonal = Array.from({ length: size }, (_, row) => factor[row * size + row] ?? 0);
        expect(logDeterminant).toBeCloseTo(2 * diagonal.reduce((sum, value) => sum + Math.log(value), 0), 6);
      }),
    );
  });

  it('solves by its inverse', () => {
    // 4 x + 2 y = 8, 2 x + 3 y = 8: x = 1, y = 2.
    const matrix = Float64Array.from([4, 2, 2, 3]);
    choleskyInPlace(matrix, 2);
    const inverse = inverseOfFactor(matrix, 2);
    const solution = solveByInverse(inverse, 2, Float64Array.from([8, 8]));
    expect(solution[0]).toBeCloseTo(1, 12);
    expect(solution[1]).toBeCloseTo(2, 12);
    fc.assert(
      fc.property(aFactor, ({ size, factor }) => {
        const sought = Float64Array.from({ length: size }, (_, at) => at - 1.5);
        const whole = squared(factor, size);
        const known = Float64Array.from({ length: size }, (_, row) =>
          sought.reduce((sum, value, column) => sum + value * (whole[row * size + column] ?? 0), 0),
        );
        const found = solveByInverse(inverseOfFactor(factor, size), size, known);
        const error = Math.max(...found.map((value, at) => Math.abs(value - (sought[at] ?? 0))));
        // The factor's pivots are at least 0.5 and its entries at most 2.5 and six of them: far from singular in doubles.
        expect(error).toBeLessThan(1e-5);
      }),
    );
  });

  it.each([
    ['with a negative direction', [1, 2, 2, 1]],
    ['of rank one', [1, 1, 1, 1]],
    ['with a value that is no number', [Number.NaN, 0, 0, 1]],
  ])('is refused for a matrix %s', (_, values) => {
    expect(() => choleskyInPlace(Float64Array.from(values), 2)).toThrow(
      expect.objectContaining({ code: 'stats.no_convergence' }),
    );
  });

  it.each([
    ['that is singular', [1, 1, 1, 1]],
    ['with a negative direction', [1, 2, 2, 1]],
    ['that is not a number', [Number.NaN, 0, 0, 1]],
  ])('is refused of a matrix %s', (_, matrix) => {
    expect(() => choleskyInPlace(Float64Array.from(matrix), 2)).toThrow(
      expect.objectContaining({ code: 'stats.no_convergence' }),
    );
  });
});
