import fc from 'fast-check';
import { effectiveTrials } from './effective-trials.js';

describe('effective trials', () => {
  // (1 + 1 + 1/2 + 1/2)² / (1 + 1 + 1/4 + 1/4) = 9 / 2.5, exact by hand.
  it('is 3.6 for the weights 1, 1, ½, ½', () => {
    expect(effectiveTrials([1, 1, 0.5, 0.5])).toBeCloseTo(3.6, 12);
  });

  it('ignores trials of no weight', () => {
    expect(effectiveTrials([2, 0, 2, 0])).toBeCloseTo(2, 12);
  });

  it('lies between 1 and the count, and does not feel the scale of the weights', () => {
    const weights = fc.array(fc.double({ min: 0.01, max: 1, noNaN: true }), { minLength: 1, maxLength: 50 });
    fc.assert(
      fc.property(weights, fc.constantFrom(1e-200, 0.1, 1e200), (values, scale) => {
        const effective = effectiveTrials(values);
        expect(effective).toBeGreaterThanOrEqual(1 - 1e-12);
        expect(effective).toBeLessThanOrEqual(values.length * (1 + 1e-12));
        expect(effectiveTrials(values.map((value) => value * scale)) / effective).toBeCloseTo(1, 10);
      }),
    );
  });

  it.each([
    ['stats.invalid_number', [1, -1]],
    ['stats.invalid_number', [Number.NaN]],
    ['stats.undefined_statistic', [0, 0]],
    ['stats.undefined_statistic', []],
  ])('refuses with %s: %j', (code, weights) => {
    expect(() => effectiveTrials(weights)).toThrow(expect.objectContaining({ code }));
  });
});
