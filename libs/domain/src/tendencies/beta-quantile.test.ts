import fc from 'fast-check';
import { betaQuantile, normalQuantile } from '../statistics/distributions.js';
import { betaLogNorm, betaPoint, type BetaShape } from './beta-point.js';
import { quickBetaQuantile } from './beta-quantile.js';

const shapeOf = (alpha: number, beta: number): BetaShape => ({ alpha, beta, logNorm: betaLogNorm(alpha, beta) });
const quantile = (probability: number, alpha: number, beta: number): number =>
  quickBetaQuantile(probability, normalQuantile(probability), shapeOf(alpha, beta));

describe('the quick quantile of a Beta distribution', () => {
  // Brown, Cai & DasGupta (2001), Table 5, Jeffreys limits of 2 of 7 at 95 %: quantiles of Beta(2.5, 5.5).
  it('agrees with published Jeffreys limits to their printed digits', () => {
    expect(quantile(0.025, 2.5, 5.5)).toBeCloseTo(0.065, 3);
    expect(quantile(0.975, 2.5, 5.5)).toBeCloseTo(0.648, 3);
  });

  it('agrees with the library to 1e-4 over shapes from 0.01 to 3,000', () => {
    const logShape = fc.double({ min: Math.log(0.01), max: Math.log(3000), noNaN: true });
    const chance = fc.double({ min: 0.005, max: 0.995, noNaN: true });
    fc.assert(
      fc.property(logShape, logShape, chance, (logAlpha, logBeta, probability) => {
        const [alpha, beta] = [Math.exp(logAlpha), Math.exp(logBeta)];
        const own = quantile(probability, alpha, beta);
        expect(Math.abs(own - betaQuantile(probability, alpha, beta))).toBeLessThan(1e-4);
      }),
      { numRuns: 2000 },
    );
  });

  it('agrees with it as well where the first guess is enough, far out too', () => {
    const logShape = fc.double({ min: Math.log(30), max: Math.log(80_000), noNaN: true });
    const logChance = fc.double({ min: Math.log(1e-6), max: Math.log(0.5), noNaN: true });
    fc.assert(
      fc.property(logShape, logShape, logChance, (logAlpha, logBeta, logProbability) => {
        const [alpha, beta, probability] = [Math.exp(logAlpha), Math.exp(logBeta), Math.exp(logProbability)];
        const own = quantile(probability, alpha, beta);
        expect(Math.abs(own - betaQuantile(probability, alpha, beta))).toBeLessThan(1e-4);
      }),
      { numRuns: 2000 },
    );
  });

  it('mirrors when the shapes change places', () => {
    expect(quantile(0.1, 3, 9)).toBeCloseTo(1 - quantile(0.9, 9, 3), 8);
  });

  it('is what the distribution function takes back', () => {
    const shape = shapeOf(0.4, 17);
    expect(betaPoint(quantile(0.7, 0.4, 17), shape).cdf).toBeCloseTo(0.7, 5);
  });
});
