import fc from 'fast-check';
import { betaCdf } from '../statistics/distributions.js';
import { drawBeta } from '../statistics/draw-dirichlet.js';
import { posteriorShares } from '../statistics/posterior-shares.js';
import { seededRandom } from '../statistics/seeded-random.js';
import { betaLogNorm, betaMixtureCdf, betaMixtureQuantile, type BetaPart } from './beta-mixture.js';
import { sharePosterior } from './share-posterior.js';

const part = (weight: number, alpha: number, beta: number): BetaPart => ({
  weight,
  alpha,
  beta,
  logNorm: betaLogNorm(alpha, beta),
});

describe('the mixture of Beta distributions', () => {
  // Brown, Cai & DasGupta (2001), Table 5, Jeffreys limits of 2 of 7 at 95 %: quantiles of Beta(2.5, 5.5).
  it('agrees with published Jeffreys limits to their printed digits', () => {
    expect(betaMixtureQuantile(0.025, [part(1, 2.5, 5.5)])).toBeCloseTo(0.065, 3);
    expect(betaMixtureQuantile(0.975, [part(1, 2.5, 5.5)])).toBeCloseTo(0.648, 3);
  });

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

  it('gives the posterior shares and intervals of the statistics to 1e-6', () => {
    const random = seededRandom(32);
    for (let draw = 0; draw < 300; draw += 1) {
      const mean = 0.01 + 0.98 * random();
      const known = Math.floor(60 * random());
      const count = Math.floor((known + 1) * random());
      const prior = { weight: 0.15, tight: 5 + 200 * random(), loose: 0.05 + 4 * random(), mean: [mean, 1 - mean] };
      const { shares, specialist } = posteriorShares([count, known - count], prior, 0.9);
      const own = sharePosterior(count, known, mean, [
        { probability: specialist, concentration: prior.loose },
        { probability: 1 - specialist, concentration: prior.tight },
      ]);
      const interval = own.interval(0.9);
      expect(Math.abs(own.share - (shares[0]?.share ?? NaN))).toBeLessThan(1e-9);
      expect(Math.abs(interval.lower - (shares[0]?.interval.lower ?? NaN))).toBeLessThan(1e-6);
      expect(Math.abs(interval.upper - (shares[0]?.interval.upper ?? NaN))).toBeLessThan(1e-6);
    }
  });

  it('finds a quantile that lies far from where the halving starts', () => {
    // Two narrow parts, at 0.95 and 0.37, with nothing between: a search once stopped beyond the upper one.
    const parts = [
      part(0.6728057437881055, 5.9014631065882375, 0.3),
      part(1 - 0.6728057437881055, 174.35346599248933, 300),
    ];
    const point = betaMixtureQuantile(0.19146844179626352, parts);
    expect(betaMixtureCdf(point, parts)).toBeCloseTo(0.19146844179626352, 6);
  });

  it('has quantiles that its distribution function takes back', () => {
    const shape = fc.double({ min: 0.3, max: 300, noNaN: true });
    const chance = fc.double({ min: 0.01, max: 0.99, noNaN: true });
    fc.assert(
      fc.property(shape, shape, shape, shape, chance, chance, (a, b, c, d, weight, probability) => {
        const parts = [part(weight, a, b), part(1 - weight, c, d)];
        const point = betaMixtureQuantile(probability, parts);
        // The quantile is right to 1e-7 of the share, so the probability a little to either side embraces it.
        expect(betaMixtureCdf(point - 1e-6, parts)).toBeLessThanOrEqual(probability + 1e-9);
        expect(betaMixtureCdf(point + 1e-6, parts)).toBeGreaterThanOrEqual(probability - 1e-9);
      }),
      { numRuns: 200 },
    );
  });
});
