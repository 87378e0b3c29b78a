import fc from 'fast-check';
import { elementAt } from './element-at.js';
import { quadraticForm } from './quadratic-form.js';

describe('quadratic form', () => {
  it('is the squared distance in standard deviations when entries are independent', () => {
    expect(
      quadraticForm(
        [3, 4],
        [
          [9, 0],
          [0, 4],
        ],
      ),
    ).toEqual({ value: 5, rank: 2 });
  });

  // By hand: the inverse of [[2, 1], [1, 2]] is [[2, -1], [-1, 2]] / 3.
  it('takes covariance into account', () => {
    expect(
      quadraticForm(
        [1, 2],
        [
          [2, 1],
          [1, 2],
        ],
      ).value,
    ).toBeCloseTo(2, 12);
  });

  it('says the same of a vector with one entry repeated', () => {
    const { value, rank } = quadraticForm(
      [1, 2, 2],
      [
        [2, 1, 1],
        [1, 2, 2],
        [1, 2, 2],
      ],
    );
    expect(value).toBeCloseTo(2, 12);
    expect(rank).toBe(2);
  });

  it('has rank 0 where nothing varies', () => {
    expect(
      quadraticForm(
        [0, 0],
        [
          [0, 0],
          [0, 0],
        ],
      ),
    ).toEqual({ value: 0, rank: 0 });
  });

  it('does not feel the order of its entries', () => {
    const entries = fc.array(fc.double({ min: -3, max: 3, noNaN: true }), { minLength: 9, maxLength: 9 });
    fc.assert(
      fc.property(
        entries,
        fc.tuple(fc.integer({ min: -5, max: 5 }), fc.integer({ min: -5, max: 5 }), fc.integer({ min: -5, max: 5 })),
        (root, vector) => {
          const at = (row: number, column: number): number => elementAt(root, 3 * row + column);
          const covariance = [0, 1, 2].map((row) =>
            [0, 1, 2].map(
              (column) =>
                [0, 1, 2].reduce((sum, inner) => sum + at(row, inner) * at(column, inner), 0) +
                (row === column ? 1 : 0),
            ),
          );
          const turned = quadraticForm(vector.toReversed(), covariance.map((row) => row.toReversed()).toReversed());
          expect(turned.value).toBeCloseTo(quadraticForm(vector, covariance).value, 7);
          expect(turned.rank).toBe(3);
        },
      ),
    );
  });
});
