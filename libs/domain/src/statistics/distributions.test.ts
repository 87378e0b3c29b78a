import fc from 'fast-check';
import { betaCdf, betaQuantile, chiSquareUpperTail, logGamma, normalCdf, normalQuantile } from './distributions.js';

// R 4.2.2 (qnorm, pnorm, qbeta, pchisq), 10 significant digits.
const KEPT_DIGITS = 1e-9;

describe('distributions', () => {
  it('has the familiar normal points', () => {
    expect(normalQuantile(0.975)).toBeCloseTo(1.959963984540054, 13);
    expect(normalCdf(-1.959963984540054)).toBeCloseTo(0.025, 13);
  });

  // Beta quantiles of the uniform and the Jeffreys posterior of 4 in 20, R: qbeta.
  it.each([
    { probability: 0.025, alpha: 5, beta: 17, expected: 0.0821758756 },
    { probability: 0.975, alpha: 5, beta: 17, expected: 0.4190660412 },
    { probability: 0.05, alpha: 4.5, beta: 16.5, expected: 0.0873350328 },
    { probability: 0.95, alpha: 4.5, beta: 16.5, expected: 0.372739285 },
    { probability: 0.025, alpha: 0.5, beta: 10.5, expected: 4.789043316e-5 },
    { probability: 0.975, alpha: 0.5, beta: 10.5, expected: 0.2171962675 },
  ])('agrees with R: qbeta($probability, $alpha, $beta)', ({ probability, alpha, beta, expected }) => {
    expect(Math.abs(betaQuantile(probability, alpha, beta) - expected)).toBeLessThanOrEqual(KEPT_DIGITS);
  });

  // Gelman et al. (2013), Bayesian Data Analysis, 3.4, pre-election poll: R, pbeta(.5, 728, 584, lower.tail = FALSE).
  it('agrees with R: pbeta on the pre-election poll', () => {
    expect(Math.abs(1 - betaCdf(0.5, 728, 584) - 0.999965660017)).toBeLessThanOrEqual(1e-11);
  });

  it('takes a Beta quantile back to its probability', () => {
    const shape = fc.double({ min: 0.3, max: 500, noNaN: true });
    fc.assert(
      fc.property(fc.double({ min: 0.01, max: 0.99, noNaN: true }), shape, shape, (probability, alpha, beta) => {
        expect(betaCdf(betaQuantile(probability, alpha, beta), alpha, beta)).toBeCloseTo(probability, 7);
      }),
    );
  });

  it('keeps the digits of a tiny upper tail', () => {
    // With two degrees of freedom the tail is exp(-x / 2) exactly.
    expect(chiSquareUpperTail(400, 2) / Math.exp(-200)).toBeCloseTo(1, 10);
    expect(chiSquareUpperTail(0, 3)).toBe(1);
  });

  it('agrees with the identities of the gamma function', () => {
    expect(logGamma(6)).toBeCloseTo(Math.log(120), 12);
    expect(logGamma(3.7) - logGamma(2.7)).toBeCloseTo(Math.log(2.7), 12);
  });

  it.each([
    ['stats.invalid_probability', () => normalQuantile(0)],
    ['stats.invalid_number', () => normalCdf(Number.NaN)],
    ['stats.invalid_probability', () => betaQuantile(1, 2, 2)],
    ['stats.invalid_number', () => betaQuantile(0.5, 0, 2)],
    ['stats.invalid_probability', () => betaCdf(1.5, 2, 2)],
    ['stats.invalid_number', () => betaCdf(0.5, 2, -1)],
    ['stats.invalid_number', () => chiSquareUpperTail(-1, 2)],
    ['stats.invalid_number', () => chiSquareUpperTail(1, 0)],
    ['stats.invalid_number', () => logGamma(0)],
    ['stats.invalid_number', () => logGamma(Number.POSITIVE_INFINITY)],
  ])('refuses with %s', (code, call) => {
    expect(call).toThrow(expect.objectContaining({ code }));
  });
});
