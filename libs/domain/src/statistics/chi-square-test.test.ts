import fc from 'fast-check';
import { chiSquareTest, goodnessOfFitTest } from './chi-square-test.js';
import { elementAt } from './element-at.js';

// Agresti (2007), An Introduction to Categorical Data Analysis, 2nd ed., 38–39; R's reference output prints
// 30.07, p = 2.954e-07; longer digits from R 4.2.2.
const PARTY = [
  [762, 327, 468],
  [484, 239, 477],
];

describe('chi-square test of independence', () => {
  it('agrees with R on sex by party', () => {
    const result = chiSquareTest(PARTY);
    expect(result.degreesOfFreedom).toBe(2);
    expect(Math.abs(result.pearson - 30.07)).toBeLessThanOrEqual(0.5e-2);
    expect(Math.abs(result.pearson - 30.0701)).toBeLessThanOrEqual(1e-4);
    expect(Math.abs(result.pearsonPValue / 2.9536e-7 - 1)).toBeLessThanOrEqual(1e-4);
    expect(Math.abs(result.g - 30.016693)).toBeLessThanOrEqual(1e-5);
    expect(Math.abs(result.gPValue / 3.0335979e-7 - 1)).toBeLessThanOrEqual(1e-5);
    expect(Math.abs(result.cramersV - 0.1044358)).toBeLessThanOrEqual(1e-6);
    for (const [column, [expected = 0, residual = 0]] of [
      [703.67138, 4.50205352],
      [319.64527, 0.69945173],
      [533.68335, -5.31594554],
    ].entries()) {
      expect(Math.abs(elementAt(elementAt(result.expected, 0), column) - expected)).toBeLessThanOrEqual(1e-5);
      expect(Math.abs(elementAt(elementAt(result.standardizedResiduals, 0), column) - residual)).toBeLessThanOrEqual(
        1e-7,
      );
    }
  });

  // R 4.2.2: prop.test(c(56, 48), c(70, 80)) without and with correction.
  it('agrees with R on 56 of 70 against 48 of 80', () => {
    const { pearson, pearsonPValue, yates } = chiSquareTest([
      [56, 14],
      [48, 32],
    ]);
    expect(Math.abs(pearson - 7.02341)).toBeLessThanOrEqual(1e-5);
    expect(Math.abs(pearsonPValue - 0.0080450814)).toBeLessThanOrEqual(1e-9);
    expect(Math.abs((yates?.statistic ?? 0) - 6.11427)).toBeLessThanOrEqual(1e-5);
    expect(Math.abs((yates?.pValue ?? 0) - 0.013409)).toBeLessThanOrEqual(1e-6);
  });

  // R's help page chisq.test; its reference output prints 0.4233054 with the correction it applies by default.
  it('agrees with R on a small table with and without correction', () => {
    const { pearsonPValue, yates } = chiSquareTest([
      [12, 7],
      [5, 7],
    ]);
    expect(Math.abs((yates?.pValue ?? 0) - 0.4233054)).toBeLessThanOrEqual(0.5e-7);
    expect(Math.abs(pearsonPValue - 0.2415292748)).toBeLessThanOrEqual(1e-9);
  });

  it('has no correction beyond two by two', () => {
    expect(chiSquareTest(PARTY).yates).toBeNull();
  });

  const tables = fc.array(fc.array(fc.integer({ min: 1, max: 60 }), { minLength: 3, maxLength: 3 }), {
    minLength: 2,
    maxLength: 5,
  });

  it('does not feel a transposed table and grows with the number of plays', () => {
    fc.assert(
      fc.property(tables, (table) => {
        const result = chiSquareTest(table);
        const transposed = chiSquareTest([0, 1, 2].map((column) => table.map((row) => row[column] ?? 0)));
        const tenfold = chiSquareTest(table.map((row) => row.map((count) => 10 * count)));
        expect(transposed.pearson).toBeCloseTo(result.pearson, 8);
        expect(transposed.g).toBeCloseTo(result.g, 8);
        expect(tenfold.pearson).toBeCloseTo(10 * result.pearson, 6);
        expect(tenfold.cramersV).toBeCloseTo(result.cramersV, 10);
      }),
    );
  });

  it.each([
    [
      'stats.undefined_statistic',
      [
        [0, 0],
        [1, 2],
      ],
    ],
    [
      'stats.undefined_statistic',
      [
        [0, 3],
        [0, 2],
      ],
    ],
    ['stats.invalid_shape', [[1, 2]]],
    [
      'stats.invalid_count',
      [
        [1, 2],
        [3, 0.5],
      ],
    ],
  ])('refuses with %s: %j', (code, table) => {
    expect(() => chiSquareTest(table)).toThrow(expect.objectContaining({ code }));
  });
});

describe('goodness of fit', () => {
  // R's help page chisq.test: 20, 15 and 25 against thirds; its reference output prints 2.5 and 0.2865.
  it('agrees with R on three counts', () => {
    const { pearson, pearsonPValue, degreesOfFreedom } = goodnessOfFitTest([20, 15, 25], [1 / 3, 1 / 3, 1 / 3]);
    expect(pearson).toBeCloseTo(2.5, 10);
    expect(Math.abs(pearsonPValue - 0.2865)).toBeLessThanOrEqual(0.5e-4);
    expect(degreesOfFreedom).toBe(2);
  });

  it('finds nothing where the counts are as expected', () => {
    const { pearson, g, pearsonPValue } = goodnessOfFitTest([25, 75], [0.25, 0.75]);
    expect([pearson, g, pearsonPValue]).toEqual([0, 0, 1]);
  });

  it.each([
    ['stats.invalid_probability', () => goodnessOfFitTest([1, 2], [1, 0])],
    ['stats.invalid_shape', () => goodnessOfFitTest([1], [0.5, 0.5])],
    ['stats.invalid_count', () => goodnessOfFitTest([1, -2], [0.5, 0.5])],
    ['stats.undefined_statistic', () => goodnessOfFitTest([0, 0], [0.5, 0.5])],
  ])('refuses with %s', (code, call) => {
    expect(call).toThrow(expect.objectContaining({ code }));
  });
});
