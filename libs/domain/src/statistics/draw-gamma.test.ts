import { drawGamma, drawLogGamma, drawNormal, drawNormals } from './draw-gamma.js';
import { seededRandom } from './seeded-random.js';

const DRAWS = 40_000;
// Five standard errors of the estimate: a wrong sampler misses by far more, a right one once in a million runs.
const STANDARD_ERRORS = 5;

const momentsOf = (draws: readonly number[]): { mean: number; variance: number } => {
  const mean = draws.reduce((sum, draw) => sum + draw, 0) / draws.length;
  return { mean, variance: draws.reduce((sum, draw) => sum + (draw - mean) ** 2, 0) / (draws.length - 1) };
};

describe('gamma draws', () => {
  it.each([0.3, 1, 2.5, 40])('have mean and variance equal to the shape %d', (shape) => {
    const random = seededRandom(21);
    const { mean, variance } = momentsOf(Array.from({ length: DRAWS }, () => drawGamma(random, shape)));
    // The variance of the sample variance is (μ₄ - σ⁴) / n with μ₄ = 3a² + 6a for a gamma of shape a.
    expect(Math.abs(mean - shape)).toBeLessThan(STANDARD_ERRORS * Math.sqrt(shape / DRAWS));
    expect(Math.abs(variance - shape)).toBeLessThan(STANDARD_ERRORS * Math.sqrt((2 * shape ** 2 + 6 * shape) / DRAWS));
  });

  it('stay finite as logarithms where the draw itself vanishes', () => {
    const random = seededRandom(22);
    for (let draw = 0; draw < 1000; draw += 1)
      expect(drawLogGamma(random, 1e-4)).toBeGreaterThan(Number.NEGATIVE_INFINITY);
  });

  it('refuse a shape of 0', () => {
    expect(() => drawGamma(seededRandom(1), 0)).toThrow(expect.objectContaining({ code: 'stats.invalid_number' }));
  });
});

describe('normal draws', () => {
  it('have mean 0, variance 1 and a tenth beyond ±1.645', () => {
    const random = seededRandom(23);
    const draws = Array.from({ length: DRAWS }, () => drawNormal(random));
    const { mean, variance } = momentsOf(draws);
    const beyond = draws.filter((draw) => Math.abs(draw) > 1.6448536269514722).length / DRAWS;
    expect(Math.abs(mean)).toBeLessThan(STANDARD_ERRORS / Math.sqrt(DRAWS));
    expect(Math.abs(variance - 1)).toBeLessThan(STANDARD_ERRORS * Math.sqrt(2 / DRAWS));
    expect(Math.abs(beyond - 0.1)).toBeLessThan(STANDARD_ERRORS * Math.sqrt((0.1 * 0.9) / DRAWS));
  });

  it('come many at a time as they come one after another', () => {
    const [one, many] = [seededRandom(24), seededRandom(24)];
    expect([...drawNormals(many, 5)]).toEqual(Array.from({ length: 5 }, () => drawNormal(one)));
    expect(many()).toBe(one());
  });
});
