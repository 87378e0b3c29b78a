import fc from 'fast-check';
import { cochranMantelHaenszel } from './cochran-mantel-haenszel.js';
import { normalCdf } from './distributions.js';
import { seededRandom } from './seeded-random.js';
import { stratifiedExactTest } from './stratified-exact-test.js';
import type { TwoByTwo } from './two-by-two.js';
import { drawBinomial } from './draw-multinomial.js';

const cells = (a: number, b: number, c: number, d: number): TwoByTwo => [
  [a, b],
  [c, d],
];

// Admissions by sex in six departments: Bickel, Hammel & O'Connell (1975), Science 187, 398–404. R's
// mantelhaen.test prints 1.4269, p = 0.2323 and a common odds ratio of 0.9046968.
const ADMISSIONS: readonly TwoByTwo[] = [
  cells(512, 89, 313, 19),
  cells(353, 17, 207, 8),
  cells(120, 202, 205, 391),
  cells(138, 131, 279, 244),
  cells(53, 94, 138, 299),
  cells(22, 24, 351, 317),
];
// Penicillin in rabbits: Agresti (1990), Categorical Data Analysis, 231–237; R's help page prints p = 0.047.
const RABBITS: readonly TwoByTwo[] = [
  cells(0, 6, 0, 5),
  cells(3, 3, 0, 6),
  cells(6, 0, 2, 4),
  cells(5, 1, 6, 0),
  cells(2, 0, 5, 0),
];
const HALF_A_PRINTED_DIGIT = 0.5e-4;
// NumPy and SciPy 1.17 from the formulas written out.
const KEPT_DIGITS = 1e-9;

describe('Cochran-Mantel-Haenszel test', () => {
  it('agrees with R on six departments', () => {
    const { statistic, pValue, oddsRatio } = cochranMantelHaenszel(ADMISSIONS, { continuity: true });
    expect(Math.abs(statistic - 1.4269)).toBeLessThanOrEqual(HALF_A_PRINTED_DIGIT);
    expect(Math.abs(pValue - 0.2323)).toBeLessThanOrEqual(HALF_A_PRINTED_DIGIT);
    expect(Math.abs((oddsRatio ?? 0) - 0.9046968)).toBeLessThanOrEqual(0.5e-7);
  });

  it('agrees with the formulas written out, with and without correction', () => {
    const plain = cochranMantelHaenszel(ADMISSIONS, { continuity: false });
    expect(Math.abs(plain.statistic - 1.5246066604434356)).toBeLessThanOrEqual(KEPT_DIGITS);
    expect(Math.abs(plain.pValue - 0.21692369705551479)).toBeLessThanOrEqual(KEPT_DIGITS);
    expect(Math.abs(plain.excess - -15.357166583025535)).toBeLessThanOrEqual(KEPT_DIGITS);
    const rabbits = cochranMantelHaenszel(RABBITS, { continuity: true });
    expect(Math.abs(rabbits.statistic - 3.928571428571429)).toBeLessThanOrEqual(KEPT_DIGITS);
    expect(Math.abs(rabbits.pValue - 0.047)).toBeLessThanOrEqual(0.5e-3);
    expect(rabbits.oddsRatio).toBeCloseTo(7, 10);
    expect(rabbits.strata).toBe(3);
  });

  // By hand: the rabbits' telling strata expect 1.5 of 0 to 3, 4 of 2 to 6 and 5.5 of 5 to 6 cured.
  it('measures the room around the expected sum as Mantel and Fleiss do', () => {
    expect(cochranMantelHaenszel(RABBITS, { continuity: false }).mantelFleiss).toBeCloseTo(4, 12);
  });

  const tables: fc.Arbitrary<TwoByTwo> = fc
    .tuple(fc.integer({ min: 1, max: 30 }), fc.nat(30), fc.nat(30), fc.integer({ min: 1, max: 30 }))
    .map(([a, b, c, d]): TwoByTwo => cells(a, b, c, d))
    .filter(([[a, b], [c, d]]) => a + b > 0 && c + d > 0 && a + c > 0 && b + d > 0);

  it('inverts the odds ratio and keeps the statistic when rows change places', () => {
    fc.assert(
      fc.property(fc.array(tables, { minLength: 1, maxLength: 6 }), fc.boolean(), (strata, continuity) => {
        const result = cochranMantelHaenszel(strata, { continuity });
        const swapped = cochranMantelHaenszel(
          strata.map(([first, second]): TwoByTwo => [second, first]),
          { continuity },
        );
        expect(swapped.statistic).toBeCloseTo(result.statistic, 9);
        expect(swapped.mantelFleiss).toBeCloseTo(result.mantelFleiss, 9);
        expect(1 / (swapped.oddsRatio ?? 1)).toBeCloseTo(result.oddsRatio ?? 1, 6);
      }),
    );
  });

  it('never finds more with the correction than without', () => {
    fc.assert(
      fc.property(fc.array(tables, { minLength: 1, maxLength: 6 }), (strata) => {
        const corrected = cochranMantelHaenszel(strata, { continuity: true });
        expect(corrected.pValue).toBeGreaterThanOrEqual(cochranMantelHaenszel(strata, { continuity: false }).pValue);
      }),
    );
  });

  it('comes close to the exact mid-P where the strata are well filled', () => {
    const random = seededRandom(91);
    for (let repeat = 0; repeat < 20; repeat += 1) {
      const strata = Array.from({ length: 4 }, (): TwoByTwo => {
        const [first, second] = [drawBinomial(random, 60, 0.45), drawBinomial(random, 60, 0.4)];
        return [
          [first, 60 - first],
          [second, 60 - second],
        ];
      });
      const { statistic, excess, mantelFleiss } = cochranMantelHaenszel(strata, { continuity: false });
      expect(mantelFleiss).toBeGreaterThan(5);
      const upperTail = normalCdf(-Math.sign(excess) * Math.sqrt(statistic));
      expect(Math.abs(upperTail - stratifiedExactTest(strata).midP.greater)).toBeLessThan(0.005);
    }
  });

  it('has no odds ratio where the strata say nothing of it, and an infinite one where none speaks against', () => {
    expect(cochranMantelHaenszel([cells(3, 0, 0, 4)], { continuity: false }).oddsRatio).toBe(Number.POSITIVE_INFINITY);
    expect(cochranMantelHaenszel([cells(0, 3, 4, 0)], { continuity: false }).oddsRatio).toBe(0);
  });

  it.each([
    ['stats.undefined_statistic', []],
    ['stats.undefined_statistic', [cells(0, 0, 4, 3)]],
    ['stats.invalid_count', [cells(1, -1, 4, 3)]],
  ])('refuses with %s: %j', (code, strata) => {
    expect(() => cochranMantelHaenszel(strata, { continuity: true })).toThrow(expect.objectContaining({ code }));
  });
});
