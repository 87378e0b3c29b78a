import fc from 'fast-check';
import { conditionalDistribution, convolve, meanOf } from './conditional-distribution.js';

describe('conditional distribution of a 2 × 2 table', () => {
  // Fisher's tea tasting, Agresti (2002), Categorical Data Analysis, 2nd ed., 91–93: 1, 16, 36, 16, 1 seventieths.
  it('is hypergeometric when the odds are even', () => {
    const { first, probabilities } = conditionalDistribution([
      [3, 1],
      [1, 3],
    ]);
    expect(first).toBe(0);
    expect(probabilities.map((probability) => Number((70 * probability).toFixed(9)))).toEqual([1, 16, 36, 16, 1]);
  });

  // By hand: odds of 3 multiply the weights 1, 16, 36, 16, 1 by 1, 3, 9, 27, 81.
  it('leans with the odds ratio', () => {
    const { probabilities } = conditionalDistribution(
      [
        [3, 1],
        [1, 3],
      ],
      Math.log(3),
    );
    const weights = [1, 48, 324, 432, 81];
    expect(probabilities.map((probability) => Number((886 * probability).toFixed(9)))).toEqual(weights);
  });

  const margins = fc.tuple(fc.nat(80), fc.nat(80), fc.nat(80), fc.nat(80));

  it('adds up to 1, and has the mean that its margins give', () => {
    fc.assert(
      fc.property(margins, ([a, b, c, d]) => {
        const distribution = conditionalDistribution([
          [a, b],
          [c, d],
        ]);
        expect(distribution.probabilities.reduce((sum, probability) => sum + probability, 0)).toBeCloseTo(1, 10);
        expect(meanOf(distribution)).toBeCloseTo(((a + b) * (a + c)) / Math.max(1, a + b + c + d), 8);
      }),
    );
  });

  it('adds means and starting points when two are convolved', () => {
    fc.assert(
      fc.property(margins, margins, ([a, b, c, d], [e, f, g, h]) => {
        const left = conditionalDistribution([
          [a, b],
          [c, d],
        ]);
        const right = conditionalDistribution([
          [e, f],
          [g, h],
        ]);
        const sum = convolve(left, right);
        expect(sum.first).toBe(left.first + right.first);
        expect(meanOf(sum)).toBeCloseTo(meanOf(left) + meanOf(right), 7);
      }),
      { numRuns: 40 },
    );
  });
});
