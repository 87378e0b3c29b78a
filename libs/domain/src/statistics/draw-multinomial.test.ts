import { drawBinomial, drawMultinomial } from './draw-multinomial.js';
import { elementAt } from './element-at.js';
import { seededRandom } from './seeded-random.js';

describe('multinomial draws', () => {
  it('have the mean, variance and covariance of the distribution', () => {
    const random = seededRandom(41);
    const draws = Array.from({ length: 20_000 }, () => drawMultinomial(random, 12, [0.5, 0.3, 0, 0.2]));
    const average = (of: (counts: readonly number[]) => number): number =>
      draws.reduce((sum, counts) => sum + of(counts), 0) / draws.length;
    expect(average((counts) => elementAt(counts, 0))).toBeCloseTo(6, 1);
    expect(average((counts) => elementAt(counts, 2))).toBe(0);
    // Variance n p (1 - p) = 2.52 and covariance -n p q = -1.8; their standard errors are near 0.025.
    expect(Math.abs(average((counts) => (elementAt(counts, 1) - 3.6) ** 2) - 2.52)).toBeLessThan(0.13);
    const covariance = average((counts) => (elementAt(counts, 0) - 6) * (elementAt(counts, 1) - 3.6));
    expect(Math.abs(covariance + 1.8)).toBeLessThan(0.13);
  });

  it('add up to the trials and never fall on a share of 0', () => {
    const random = seededRandom(42);
    for (const trials of [0, 1, 57]) {
      const counts = drawMultinomial(random, trials, [0, 0.999_999_9, 0]);
      expect(counts).toEqual([0, trials, 0]);
    }
  });

  it('give binomial draws their mean', () => {
    const random = seededRandom(43);
    const draws = Array.from({ length: 10_000 }, () => drawBinomial(random, 20, 0.35));
    const standardError = Math.sqrt((20 * 0.35 * 0.65) / draws.length);
    expect(Math.abs(draws.reduce((sum, draw) => sum + draw, 0) / draws.length - 7)).toBeLessThan(5 * standardError);
  });

  it.each([
    ['stats.invalid_count', () => drawMultinomial(seededRandom(1), -1, [1])],
    ['stats.invalid_probability', () => drawMultinomial(seededRandom(1), 1, [0.5, 0.4])],
    ['stats.invalid_shape', () => drawMultinomial(seededRandom(1), 1, [])],
    ['stats.invalid_probability', () => drawBinomial(seededRandom(1), 1, 1.1)],
  ])('refuse with %s', (code, call) => {
    expect(call).toThrow(expect.objectContaining({ code }));
  });
});
