import { drawBeta, drawDirichlet } from './draw-dirichlet.js';
import { elementAt } from './element-at.js';
import { seededRandom } from './seeded-random.js';

const DRAWS = 20_000;

describe('Dirichlet draws', () => {
  it.each([{ alpha: [2, 5, 0.5] }, { alpha: [0.05, 0.05] }, { alpha: [300, 100, 40, 60] }])(
    'have the mean and variance of the distribution for $alpha',
    ({ alpha }) => {
      const random = seededRandom(31);
      const draws = Array.from({ length: DRAWS }, () => drawDirichlet(random, alpha));
      const concentration = alpha.reduce((sum, shape) => sum + shape, 0);
      for (const [category, shape] of alpha.entries()) {
        const shares = draws.map((draw) => elementAt(draw, category));
        const mean = shape / concentration;
        const variance = (mean * (1 - mean)) / (concentration + 1);
        const sampleMean = shares.reduce((sum, share) => sum + share, 0) / DRAWS;
        const sampleVariance = shares.reduce((sum, share) => sum + (share - mean) ** 2, 0) / DRAWS;
        // Five standard errors of a mean; a tenth for the variance, whose own error is below 3 % here.
        expect(Math.abs(sampleMean - mean)).toBeLessThan(5 * Math.sqrt(variance / DRAWS));
        expect(Math.abs(sampleVariance / variance - 1)).toBeLessThan(0.1);
      }
    },
  );

  it('add up to 1, even where all but one share vanish', () => {
    const random = seededRandom(32);
    for (let draw = 0; draw < 500; draw += 1) {
      const shares = drawDirichlet(random, [1e-3, 1e-3, 1e-3]);
      expect(shares.reduce((sum, share) => sum + share, 0)).toBeCloseTo(1, 12);
    }
  });

  it('give a Beta draw its mean', () => {
    const random = seededRandom(33);
    const draws = Array.from({ length: DRAWS }, () => drawBeta(random, 3, 9));
    const standardError = Math.sqrt((0.25 * 0.75) / 13 / DRAWS);
    expect(Math.abs(draws.reduce((sum, draw) => sum + draw, 0) / DRAWS - 0.25)).toBeLessThan(5 * standardError);
  });

  it.each([
    ['stats.invalid_shape', []],
    ['stats.invalid_number', [1, 0]],
  ])('refuse with %s: %j', (code, alpha) => {
    expect(() => drawDirichlet(seededRandom(1), alpha)).toThrow(expect.objectContaining({ code }));
  });
});
