import fc from 'fast-check';
import { benjaminiHochberg } from './benjamini-hochberg.js';
import { elementAt } from './element-at.js';

// Benjamini & Hochberg (1995), section 4: fifteen p-values, four found at 0.05; adjusted values from R's p.adjust.
const P_VALUES = [
  0.0001, 0.0004, 0.0019, 0.0095, 0.0201, 0.0278, 0.0298, 0.0344, 0.0459, 0.324, 0.4262, 0.5719, 0.6528, 0.759, 1,
];
const ADJUSTED = [
  0.0015, 0.003, 0.0095, 0.035625, 0.0603, 0.0638571429, 0.0638571429, 0.0645, 0.0765, 0.486, 0.5811818182, 0.714875,
  0.7532307692, 0.8132142857, 1,
];
const KEPT_DIGITS = 1e-10;

describe('Benjamini-Hochberg', () => {
  it('finds the four of the published example', () => {
    expect(benjaminiHochberg(P_VALUES, 0.05).rejected).toEqual(P_VALUES.map((_, index) => index < 4));
  });

  it('adjusts as R does', () => {
    const { adjusted } = benjaminiHochberg(P_VALUES, 0.05);
    for (const [index, expected] of ADJUSTED.entries()) {
      expect(Math.abs(elementAt(adjusted, index) - expected)).toBeLessThanOrEqual(KEPT_DIGITS);
    }
  });

  it('rejects up to the largest rank that passes, although an earlier one fails', () => {
    // Steps are 0.025 and 0.05: the first alone would fail, the second carries it.
    expect(benjaminiHochberg([0.04, 0.045], 0.05).rejected).toEqual([true, true]);
  });

  const pValueLists = fc.array(fc.double({ min: 0, max: 1, noNaN: true }), { maxLength: 40 });

  it('follows its definition, does not feel the order and never lowers a p-value', () => {
    fc.assert(
      fc.property(pValueLists, (pValues) => {
        const { adjusted, rejected } = benjaminiHochberg(pValues, 0.1);
        const sorted = pValues.toSorted((first, second) => first - second);
        const last = sorted.findLastIndex((pValue, index) => pValue * (sorted.length / (index + 1)) <= 0.1);
        expect(rejected.filter(Boolean)).toHaveLength(last + 1);
        expect(benjaminiHochberg(pValues.toReversed(), 0.1).adjusted).toEqual(adjusted.toReversed());
        for (const [index, pValue] of pValues.entries())
          expect(elementAt(adjusted, index)).toBeGreaterThanOrEqual(pValue);
      }),
    );
  });

  it('finds nothing among nothing', () => {
    expect(benjaminiHochberg([], 0.1)).toEqual({ adjusted: [], rejected: [] });
  });

  it.each([
    [[0.5, Number.NaN], 0.1],
    [[1.5], 0.1],
    [[0.5], 0],
    [[0.5], 1],
  ])('refuses %j at %d', (pValues, level) => {
    expect(() => benjaminiHochberg(pValues, level)).toThrow(
      expect.objectContaining({ code: 'stats.invalid_probability' }),
    );
  });
});
