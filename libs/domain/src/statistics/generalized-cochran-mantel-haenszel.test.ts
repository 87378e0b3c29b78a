import fc from 'fast-check';
import { cochranMantelHaenszel } from './cochran-mantel-haenszel.js';
import { generalizedCochranMantelHaenszel } from './generalized-cochran-mantel-haenszel.js';
import type { TwoByTwo } from './two-by-two.js';

// Income by job satisfaction within sex: Agresti (2002), Categorical Data Analysis, 2nd ed., table 7.8;
// R's mantelhaen.test prints M² = 10.2, df = 9, p = 0.3345. Longer digits: NumPy and SciPy 1.17.
const SATISFACTION = [
  [
    [1, 3, 11, 2],
    [2, 3, 17, 3],
    [0, 1, 8, 5],
    [0, 2, 4, 2],
  ],
  [
    [1, 1, 2, 1],
    [0, 3, 5, 1],
    [0, 0, 7, 3],
    [0, 1, 9, 6],
  ],
];

describe('generalised Cochran-Mantel-Haenszel test', () => {
  it('agrees with R on job satisfaction', () => {
    const { statistic, degreesOfFreedom, pValue } = generalizedCochranMantelHaenszel(SATISFACTION);
    expect(degreesOfFreedom).toBe(9);
    expect(Math.abs(statistic - 10.2)).toBeLessThanOrEqual(0.05);
    expect(Math.abs(pValue - 0.3345)).toBeLessThanOrEqual(0.5e-4);
    expect(Math.abs(statistic - 10.200088757768636)).toBeLessThanOrEqual(1e-9);
    expect(Math.abs(pValue - 0.3345311833978213)).toBeLessThanOrEqual(1e-9);
  });

  const twoByTwo: fc.Arbitrary<TwoByTwo> = fc
    .tuple(fc.integer({ min: 1, max: 30 }), fc.nat(30), fc.nat(30), fc.integer({ min: 1, max: 30 }))
    .map(([a, b, c, d]): TwoByTwo => [
      [a, b],
      [c, d],
    ])
    .filter(([[a, b], [c, d]]) => a + b > 0 && c + d > 0 && a + c > 0 && b + d > 0);

  it('is the plain test for tables of two by two', () => {
    fc.assert(
      fc.property(fc.array(twoByTwo, { minLength: 1, maxLength: 5 }), (strata) => {
        const plain = cochranMantelHaenszel(strata, { continuity: false });
        const general = generalizedCochranMantelHaenszel(strata);
        expect(general.statistic).toBeCloseTo(plain.statistic, 8);
        expect(general.degreesOfFreedom).toBe(1);
      }),
    );
  });

  it('does not feel the order of rows, columns and strata, nor a transposed table', () => {
    const turned = SATISFACTION.map((table) => table.toReversed().map((row) => row.toReversed())).toReversed();
    const transposed = SATISFACTION.map((table) => [0, 1, 2, 3].map((column) => table.map((row) => row[column] ?? 0)));
    const { statistic } = generalizedCochranMantelHaenszel(SATISFACTION);
    expect(generalizedCochranMantelHaenszel(turned).statistic).toBeCloseTo(statistic, 9);
    expect(generalizedCochranMantelHaenszel(transposed).statistic).toBeCloseTo(statistic, 9);
  });

  it('does not count categories nobody used, nor strata of a single play', () => {
    const padded = SATISFACTION.map((table) => table.map((row) => [0, ...row, 0]));
    const single = padded[0]?.map((row, index) => row.map((_, column) => (index === 1 && column === 2 ? 1 : 0))) ?? [];
    const result = generalizedCochranMantelHaenszel([...padded, single]);
    expect(result.degreesOfFreedom).toBe(9);
    expect(result.statistic).toBeCloseTo(10.200088757768636, 9);
  });

  it('loses a degree of freedom where two strata share no category', () => {
    const { degreesOfFreedom } = generalizedCochranMantelHaenszel([
      [
        [5, 3, 0, 0],
        [2, 6, 0, 0],
      ],
      [
        [0, 0, 4, 4],
        [0, 0, 7, 1],
      ],
    ]);
    expect(degreesOfFreedom).toBe(2);
  });

  it.each([
    ['stats.invalid_shape', []],
    ['stats.invalid_shape', [[[1, 2]]]],
    ['stats.invalid_shape', [[[1], [2]]]],
    [
      'stats.invalid_shape',
      [
        [
          [1, 2],
          [3, 4],
        ],
        [
          [1, 2, 3],
          [4, 5, 6],
        ],
      ],
    ],
    [
      'stats.invalid_count',
      [
        [
          [1, 2],
          [3, -4],
        ],
      ],
    ],
    [
      'stats.undefined_statistic',
      [
        [
          [1, 2],
          [0, 0],
        ],
      ],
    ],
    [
      'stats.undefined_statistic',
      [
        [
          [1, 0],
          [0, 0],
        ],
      ],
    ],
  ])('refuses with %s: %j', (code, strata) => {
    expect(() => generalizedCochranMantelHaenszel(strata)).toThrow(expect.objectContaining({ code }));
  });
});
