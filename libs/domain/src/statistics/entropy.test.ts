import fc from 'fast-check';
import { entropyBits, entropyOfCountsBits } from './entropy.js';

const KEPT_DIGITS = 1e-8;

describe('entropy', () => {
  // Cover & Thomas (2006), Elements of Information Theory, 2nd ed., example 2.1.1: exactly 7/4 bits.
  it('is 1.75 bits for a half, a quarter and two eighths', () => {
    expect(Math.abs(entropyBits([1 / 2, 1 / 4, 1 / 8, 1 / 8]) - 1.75)).toBeLessThanOrEqual(1e-12);
  });

  // Shannon (1948): the binary entropy function; digits from R 4.2.2.
  it.each([
    { share: 0.5, bits: 1 },
    { share: 0.6, bits: 0.970950594455 },
    { share: 0.7, bits: 0.881290899231 },
    { share: 0.89, bits: 0.499915958165 },
  ])('is $bits bits for two calls, one at $share', ({ share, bits }) => {
    expect(Math.abs(entropyBits([share, 1 - share]) - bits)).toBeLessThanOrEqual(KEPT_DIGITS);
  });

  // Counts of the help pages of the R package entropy; R 4.2.2, own formulas.
  it.each([
    { estimator: 'plug-in', bits: 2.83977553965 },
    { estimator: 'miller-madow', bits: 3.10553515244 },
  ] as const)('is $bits bits for eleven counts by $estimator', ({ estimator, bits }) => {
    const counts = [4, 2, 3, 0, 2, 4, 0, 0, 2, 1, 1];
    expect(Math.abs(entropyOfCountsBits(counts, estimator) - bits)).toBeLessThanOrEqual(KEPT_DIGITS);
  });

  it('is largest where all categories are alike and 0 where one is certain', () => {
    expect(entropyBits([1 / 3, 1 / 3, 1 / 3])).toBeCloseTo(1.58496250072, 10);
    expect(entropyBits([0, 1, 0])).toBe(0);
    fc.assert(
      fc.property(fc.array(fc.integer({ min: 1, max: 50 }), { minLength: 1, maxLength: 9 }), (counts) => {
        expect(entropyOfCountsBits(counts, 'plug-in')).toBeLessThanOrEqual(Math.log2(counts.length) + 1e-12);
        expect(entropyOfCountsBits(counts, 'plug-in')).toBeGreaterThanOrEqual(0);
        expect(entropyOfCountsBits(counts.toReversed(), 'plug-in')).toBeCloseTo(
          entropyOfCountsBits(counts, 'plug-in'),
          12,
        );
      }),
    );
  });

  it.each([
    ['stats.invalid_probability', () => entropyBits([0.5, 0.6])],
    ['stats.invalid_shape', () => entropyBits([])],
    ['stats.invalid_count', () => entropyOfCountsBits([1.5], 'plug-in')],
    ['stats.invalid_shape', () => entropyOfCountsBits([], 'plug-in')],
    ['stats.undefined_statistic', () => entropyOfCountsBits([0, 0], 'miller-madow')],
  ])('refuses with %s', (code, call) => {
    expect(call).toThrow(expect.objectContaining({ code }));
  });
});
