import fc from 'fast-check';
import { mannKendall } from './mann-kendall.js';

const KEPT_DIGITS = 1e-9;

describe('Mann-Kendall trend', () => {
  // R 4.2.2, cor.test(1:7, share, method = 'kendall') and the formulas of Mann (1945) and Sen (1968).
  it('agrees with R on seven shares', () => {
    const result = mannKendall([0.42, 0.45, 0.44, 0.5, 0.53, 0.51, 0.58]);
    expect(result.score).toBe(17);
    expect(Math.abs(result.variance - 44.33333333)).toBeLessThanOrEqual(1e-8);
    expect(Math.abs(result.z - 2.40300563674)).toBeLessThanOrEqual(KEPT_DIGITS);
    expect(Math.abs(result.normalPValue - 0.01626093678)).toBeLessThanOrEqual(KEPT_DIGITS);
    expect(Math.abs((result.exactPValue ?? 0) - 0.01071428571)).toBeLessThanOrEqual(KEPT_DIGITS);
    expect(Math.abs(result.senSlope - 0.02666666667)).toBeLessThanOrEqual(KEPT_DIGITS);
  });

  // Hollander & Wolfe (1973), Nonparametric Statistical Methods, 187, as in R's help page cor.test: 26 of 36 pairs
  // agree, exact one-sided p = 0.05972. The nine values are the second variable in the order of the first.
  it('agrees with Hollander and Wolfe on nine tuna', () => {
    const { score, exactPValue } = mannKendall([2.5, 4, 2.6, 3.6, 2.8, 3.1, 5.2, 5, 3.8]);
    expect(score).toBe(2 * 26 - 36);
    expect(Math.abs((exactPValue ?? 0) / 2 - 0.05972)).toBeLessThanOrEqual(0.5e-5);
    expect(Math.abs((exactPValue ?? 0) / 2 - 0.0597194665)).toBeLessThanOrEqual(KEPT_DIGITS);
  });

  it('corrects the variance for ties and leaves the exact value out', () => {
    // By hand: 5 · 4 · 15 = 300, less 2 · 1 · 9 for the pair, over 18.
    const result = mannKendall([1, 2, 2, 3, 4]);
    expect(result.variance).toBeCloseTo(282 / 18, 12);
    expect(result.exactPValue).toBeNull();
  });

  const series = fc.uniqueArray(fc.integer({ min: -1000, max: 1000 }), { minLength: 3, maxLength: 20 });

  it('turns its sign with the series and keeps its p-values', () => {
    fc.assert(
      fc.property(series, (values) => {
        const result = mannKendall(values);
        const turned = mannKendall(values.toReversed());
        expect(turned.score + result.score).toBe(0);
        expect(turned.exactPValue).toBe(result.exactPValue);
        expect(turned.senSlope).toBeCloseTo(-result.senSlope, 10);
        expect(mannKendall(values.map((value) => 3 * value + 5)).score).toBe(result.score);
      }),
    );
  });

  it('is 2 / n! for a series that only rises', () => {
    expect(mannKendall([1, 2, 3, 4, 5]).exactPValue).toBeCloseTo(2 / 120, 12);
  });

  it('has an exact value close to the normal one for a long series', () => {
    const values = Array.from({ length: 60 }, (_, index) => index + 40 * Math.sin(13 * index));
    const { exactPValue, normalPValue } = mannKendall(values);
    expect(Math.abs((exactPValue ?? 0) - normalPValue)).toBeLessThan(1e-3);
  });

  it.each([
    ['stats.invalid_shape', [1, 2]],
    ['stats.invalid_number', [1, Number.NaN, 2]],
    ['stats.undefined_statistic', [3, 3, 3]],
  ])('refuses with %s: %j', (code, values) => {
    expect(() => mannKendall(values)).toThrow(expect.objectContaining({ code }));
  });
});
