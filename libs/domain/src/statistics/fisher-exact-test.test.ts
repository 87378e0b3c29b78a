import fc from 'fast-check';
import { fisherExactTest } from './fisher-exact-test.js';
import type { TwoByTwo } from './two-by-two.js';

const cells = (a: number, b: number, c: number, d: number): TwoByTwo => [
  [a, b],
  [c, d],
];

// Fisher's tea tasting: Agresti (2002), Categorical Data Analysis, 2nd ed., 91–93; the exact values are 17/70, 34/70 and 1/70.
const TEA: TwoByTwo = cells(3, 1, 1, 3);
const EXACT = 1e-12;

describe("Fisher's exact test", () => {
  it('agrees with the tea tasting', () => {
    const result = fisherExactTest(TEA);
    expect(Math.abs(result.greater - 17 / 70)).toBeLessThanOrEqual(EXACT);
    expect(Math.abs(result.twoSided - 34 / 70)).toBeLessThanOrEqual(EXACT);
    // R's reference output prints 6.408309 because its root finder stops early; the root itself is 6.4083196582.
    expect(Math.abs((result.oddsRatio ?? 0) - 6.408309)).toBeLessThanOrEqual(2e-5);
    expect(Math.abs((result.oddsRatio ?? 0) - 6.4083196582)).toBeLessThanOrEqual(1e-9);
  });

  it('gives 1/70 when all eight cups are named', () => {
    const result = fisherExactTest(cells(4, 0, 0, 4));
    expect(Math.abs(result.greater - 1 / 70)).toBeLessThanOrEqual(EXACT);
    expect(result.oddsRatio).toBe(Number.POSITIVE_INFINITY);
  });

  it('counts the observed table by half in mid-P', () => {
    // The tea tasting's distribution is 1, 16, 36, 16, 1 seventieths.
    const { midP } = fisherExactTest(TEA);
    expect(midP.greater).toBeCloseTo(9 / 70, 12);
    expect(midP.less).toBeCloseTo(61 / 70, 12);
    expect(midP.twoSided).toBeCloseTo(18 / 70, 12);
  });

  it.each([
    // R 4.2.2: fisher.test on the transitions of a twenty-letter sequence.
    {
      table: cells(2, 7, 6, 4),
      twoSided: 0.1698023339,
      tolerance: 1e-9,
    },
    // SciPy 1.17: fisher_exact.
    {
      table: cells(12, 7, 5, 7),
      twoSided: 0.28830810401250984,
      tolerance: 1e-10,
    },
  ])('agrees with other software on $table', ({ table, twoSided, tolerance }) => {
    expect(Math.abs(fisherExactTest(table).twoSided - twoSided)).toBeLessThanOrEqual(tolerance);
  });

  const tables = fc.tuple(fc.nat(60), fc.nat(60), fc.nat(60), fc.nat(60));

  it('does not feel a transposed table and changes sides with its rows', () => {
    fc.assert(
      fc.property(tables, ([a, b, c, d]) => {
        const result = fisherExactTest(cells(a, b, c, d));
        const transposed = fisherExactTest(cells(a, c, b, d));
        const swapped = fisherExactTest(cells(c, d, a, b));
        expect(transposed.twoSided).toBeCloseTo(result.twoSided, 9);
        expect(swapped.twoSided).toBeCloseTo(result.twoSided, 9);
        expect(swapped.greater).toBeCloseTo(result.less, 9);
        expect(swapped.midP.greater).toBeCloseTo(result.midP.less, 9);
      }),
    );
  });

  it('has tails that share the observed table, and mid-P tails that share nothing', () => {
    fc.assert(
      fc.property(tables, ([a, b, c, d]) => {
        const { less, greater, twoSided, midP } = fisherExactTest(cells(a, b, c, d));
        expect(midP.less + midP.greater).toBeCloseTo(1, 9);
        expect(less + greater).toBeGreaterThanOrEqual(1 - 1e-9);
        expect(midP.twoSided).toBeLessThanOrEqual(2 * Math.min(less, greater) + 1e-12);
        expect(twoSided).toBeGreaterThanOrEqual(Math.min(less, greater) - 1e-12);
      }),
    );
  });

  it('says 1 and no odds ratio where a margin is empty', () => {
    expect(fisherExactTest(cells(0, 0, 3, 4))).toMatchObject({
      less: 1,
      greater: 1,
      twoSided: 1,
      oddsRatio: null,
      midP: { twoSided: 1 },
    });
  });

  it('keeps an odds ratio near that of large counts', () => {
    const { oddsRatio } = fisherExactTest(cells(4000, 2000, 1000, 3000));
    expect(oddsRatio ?? 0).toBeCloseTo(6, 1);
  });

  it.each([
    ['stats.invalid_count', cells(1, -1, 2, 3)],
    ['stats.invalid_count', cells(1, 0.5, 2, 3)],
  ])('refuses with %s: %j', (code, table) => {
    expect(() => fisherExactTest(table)).toThrow(expect.objectContaining({ code }));
  });
});
