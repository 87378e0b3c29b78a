import fc from 'fast-check';
import { fisherExactTest } from './fisher-exact-test.js';
import { stratifiedExactTest } from './stratified-exact-test.js';
import type { TwoByTwo } from './two-by-two.js';

const cells = (a: number, b: number, c: number, d: number): TwoByTwo => [
  [a, b],
  [c, d],
];

// Penicillin in rabbits, five dose levels: Agresti (1990), Categorical Data Analysis, 231–237, as in R's
// help page mantelhaen.test, which prints p = 0.040 two-sided and 0.020 one-sided; digits by SciPy 1.17.
const RABBITS: readonly TwoByTwo[] = [
  cells(0, 6, 0, 5),
  cells(3, 3, 0, 6),
  cells(6, 0, 2, 4),
  cells(5, 1, 6, 0),
  cells(2, 0, 5, 0),
];
// Admissions in departments C to F: Bickel, Hammel & O'Connell (1975), Science 187, 398–404; digits by SciPy 1.17.
const ADMISSIONS: readonly TwoByTwo[] = [
  cells(120, 202, 205, 391),
  cells(138, 131, 279, 244),
  cells(53, 94, 138, 299),
  cells(22, 24, 351, 317),
];
const KEPT_DIGITS = 1e-9;

describe('stratified exact test', () => {
  it('agrees with R and SciPy on the rabbits', () => {
    const { greater, less, twoSided, midP } = stratifiedExactTest(RABBITS);
    expect(Math.abs(twoSided - 0.04)).toBeLessThanOrEqual(0.5e-3);
    expect(Math.abs(greater - 0.02)).toBeLessThanOrEqual(0.5e-3);
    expect(Math.abs(greater - 0.01997245179063361)).toBeLessThanOrEqual(KEPT_DIGITS);
    expect(Math.abs(twoSided - 0.03994490358126722)).toBeLessThanOrEqual(KEPT_DIGITS);
    expect(Math.abs(less - 0.9986225895316806)).toBeLessThanOrEqual(KEPT_DIGITS);
    expect(Math.abs(midP.greater - 0.010674931129476584)).toBeLessThanOrEqual(KEPT_DIGITS);
    expect(Math.abs(midP.twoSided - 0.02134986225895317)).toBeLessThanOrEqual(KEPT_DIGITS);
  });

  it('agrees with SciPy on two thousand applicants', () => {
    const { greater, less, twoSided, midP } = stratifiedExactTest(ADMISSIONS);
    expect(Math.abs(greater - 0.3361693383805242)).toBeLessThanOrEqual(KEPT_DIGITS);
    expect(Math.abs(less - 0.6955173412521775)).toBeLessThanOrEqual(KEPT_DIGITS);
    expect(Math.abs(twoSided - 0.6575440849186305)).toBeLessThanOrEqual(KEPT_DIGITS);
    expect(Math.abs(midP.twoSided - 0.6406519971283467)).toBeLessThanOrEqual(KEPT_DIGITS);
  });

  const tables: fc.Arbitrary<TwoByTwo> = fc
    .tuple(fc.integer({ min: 1, max: 9 }), fc.nat(9), fc.nat(9), fc.integer({ min: 1, max: 9 }))
    .map(([a, b, c, d]): TwoByTwo => cells(a, b, c, d))
    .filter(([[a, b], [c, d]]) => a + b > 0 && c + d > 0 && a + c > 0 && b + d > 0);

  it("is Fisher's test when there is one stratum", () => {
    fc.assert(
      fc.property(tables, (table) => {
        expect(fisherExactTest(table)).toMatchObject(stratifiedExactTest([table]));
      }),
    );
  });

  it('does not feel the order of strata, nor strata that say nothing', () => {
    fc.assert(
      fc.property(fc.array(tables, { minLength: 1, maxLength: 6 }), (strata) => {
        const silent: TwoByTwo = cells(0, 0, 4, 3);
        const turned = stratifiedExactTest([silent, ...strata.toReversed()]);
        expect(turned.midP.twoSided).toBeCloseTo(stratifiedExactTest(strata).midP.twoSided, 9);
      }),
    );
  });

  it.each([
    ['stats.undefined_statistic', []],
    ['stats.undefined_statistic', [cells(0, 0, 4, 3)]],
    ['stats.invalid_count', [cells(1, 0.5, 4, 3)]],
  ])('refuses with %s: %j', (code, strata) => {
    expect(() => stratifiedExactTest(strata)).toThrow(expect.objectContaining({ code }));
  });
});
