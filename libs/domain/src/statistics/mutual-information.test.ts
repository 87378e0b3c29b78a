import fc from 'fast-check';
import { chiSquareTest } from './chi-square-test.js';
import { mutualInformationBits } from './mutual-information.js';

const KEPT_DIGITS = 1e-10;

describe('mutual information', () => {
  // Cover & Thomas (2006), Elements of Information Theory, 2nd ed., example 2.2.1, in thirty-seconds: exactly 3/8 bit.
  it('is 0.375 bits in the textbook table', () => {
    const table = [
      [4, 2, 1, 1],
      [2, 4, 1, 1],
      [2, 2, 2, 2],
      [8, 0, 0, 0],
    ];
    expect(Math.abs(mutualInformationBits(table, 'plug-in') - 0.375)).toBeLessThanOrEqual(1e-12);
  });

  // R 4.2.2, H(rowSums(P)) + H(colSums(P)) - H(P); 0.0219218334344 nats after Miller's correction.
  it('agrees with R on forty plays', () => {
    const table = [
      [18, 12],
      [3, 7],
    ];
    expect(Math.abs(mutualInformationBits(table, 'plug-in') - 0.0496602083941)).toBeLessThanOrEqual(KEPT_DIGITS);
    const corrected = mutualInformationBits(table, 'miller-madow') * Math.LN2;
    expect(Math.abs(corrected - 0.0219218334344)).toBeLessThanOrEqual(KEPT_DIGITS);
  });

  const tables = fc.array(fc.array(fc.integer({ min: 1, max: 40 }), { minLength: 3, maxLength: 3 }), {
    minLength: 2,
    maxLength: 5,
  });

  it('is the G statistic over 2 N ln 2, and the same for the transposed table', () => {
    fc.assert(
      fc.property(tables, (table) => {
        const plays = table.flat().reduce((sum, count) => sum + count, 0);
        const transposed = [0, 1, 2].map((column) => table.map((row) => row[column] ?? 0));
        const bits = mutualInformationBits(table, 'plug-in');
        expect(bits).toBeCloseTo(chiSquareTest(table).g / (2 * plays * Math.LN2), 10);
        expect(mutualInformationBits(transposed, 'plug-in')).toBeCloseTo(bits, 12);
      }),
    );
  });

  it('is 0 where rows are alike, and below 0 after the correction', () => {
    const alike = [
      [10, 20, 30],
      [10, 20, 30],
    ];
    expect(mutualInformationBits(alike, 'plug-in')).toBeCloseTo(0, 12);
    expect(mutualInformationBits(alike, 'miller-madow')).toBeLessThan(0);
  });

  it.each([
    ['stats.invalid_shape', []],
    ['stats.invalid_shape', [[1, 2], [3]]],
    ['stats.invalid_count', [[1, -2]]],
    ['stats.undefined_statistic', [[0, 0]]],
  ])('refuses with %s: %j', (code, table) => {
    expect(() => mutualInformationBits(table, 'plug-in')).toThrow(expect.objectContaining({ code }));
  });
});
