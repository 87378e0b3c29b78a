import { betaCdf } from '../statistics/distributions.js';
import { drawBeta } from '../statistics/draw-dirichlet.js';
import { seededRandom } from '../statistics/seeded-random.js';
import { betaMixtureCdf, type BetaPart } from './beta-mixture.js';
import { betaLogNorm } from './beta-point.js';

const part = (weight: number, alpha: number, beta: number): BetaPart => ({
  weight,
  alpha,
  beta,
  logNorm: betaLogNorm(alpha, beta),
});

describe('the mixture of Beta distributions', () => {
  it('agrees with the library to 1e-9 over shapes from 0.01 to 5,000', () => {
    const random = seededRandom(31);
    for (let draw = 0; draw < 2000; draw += 1) {
      const alpha = Math.exp(-4.6 + 13 * random());
      const beta = Math.exp(-4.6 + 13 * random());
      const point = drawBeta(random, alpha, beta);
      const own = betaMixtureCdf(point, [part(1, alpha, beta)]);
      expect(Math.abs(own - betaCdf(point, alpha, beta))).toBeLessThan(1e-9);
    }
  });

  it('is 0 below and 1 above every share', () => {
    expect(betaMixtureCdf(-0.1, [part(1, 2, 3)])).toBe(0);
    expect(betaMixtureCdf(0, [part(1, 2, 3)])).toBe(0);
    expect(betaMixtureCdf(1.2, [part(1, 2, 3)])).toBe(1);
  });

  it('adds its parts by their weights', () => {
    const parts = [part(0.3, 2, 5), part(0.7, 9, 4)];
    expect(betaMixtureCdf(0.4, parts)).toBeCloseTo(0.3 * betaCdf(0.4, 2, 5) + 0.7 * betaCdf(0.4, 9, 4), 9);
  });
});
