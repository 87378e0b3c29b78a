import fc from 'fast-check';
import { betaQuantile } from './distributions.js';
import { fitBetaBinomial } from './fit-beta-binomial.js';
import { TUMOURS } from './testing/rat-tumours.js';

// R 4.2.2: nlminb on the likelihood, which stops within 2e-5 of the maximum.
const AGREED_DIGITS = 2e-5;
// mpmath with 30 digits: the root of the likelihood equations.
const KEPT_DIGITS = 1e-9;

describe('Beta-binomial fit', () => {
  it('agrees with R on the rat tumours', () => {
    const fit = fitBetaBinomial(TUMOURS);
    expect(fit.evidence).toBe('inside');
    expect(Math.abs(fit.alpha - 2.34161463531)).toBeLessThanOrEqual(AGREED_DIGITS);
    expect(Math.abs(fit.beta - 14.114806916)).toBeLessThanOrEqual(AGREED_DIGITS);
    expect(Math.abs(fit.mean - 0.14229185)).toBeLessThanOrEqual(AGREED_DIGITS);
    expect(Math.abs(fit.overdispersion - 0.05728565)).toBeLessThanOrEqual(AGREED_DIGITS);
    expect(Math.abs(fit.alpha - 2.341614403333)).toBeLessThanOrEqual(KEPT_DIGITS);
    expect(Math.abs(fit.beta - 14.11480429844)).toBeLessThanOrEqual(KEPT_DIGITS);
    expect(Math.abs(fit.logLikelihood - -156.568929883)).toBeLessThanOrEqual(1e-8);
  });

  it.each([
    { successes: 4, trials: 14, shrunk: 0.208219295383 },
    { successes: 0, trials: 20, shrunk: 0.0642305123671 },
    { successes: 16, trials: 52, shrunk: 0.267931250563 },
  ])('shrinks $successes of $trials as R does', ({ successes, trials, shrunk }) => {
    const { alpha, concentration } = fitBetaBinomial(TUMOURS);
    expect(Math.abs((successes + alpha) / (trials + concentration) - shrunk)).toBeLessThanOrEqual(AGREED_DIGITS);
  });

  it('is mirrored when success and failure change places', () => {
    const groups = fc.array(
      fc.nat(30).chain((trials) => fc.record({ trials: fc.constant(trials), successes: fc.nat(trials) })),
      { minLength: 2, maxLength: 12 },
    );
    fc.assert(
      fc.property(
        groups.filter((list) => list.some(({ trials }) => trials > 0)),
        (list) => {
          const fit = fitBetaBinomial(list);
          const mirror = fitBetaBinomial(
            list.map(({ successes, trials }) => ({ successes: trials - successes, trials })),
          );
          expect(mirror.mean).toBeCloseTo(1 - fit.mean, 5);
          expect(mirror.logLikelihood).toBeCloseTo(fit.logLikelihood, 7);
        },
      ),
    );
  });

  it('gives shapes a Beta quantile can use, even where no group succeeded', () => {
    const { alpha, beta } = fitBetaBinomial([
      { successes: 0, trials: 20 },
      { successes: 0, trials: 12 },
    ]);
    expect(betaQuantile(0.95, alpha, beta)).toBeLessThan(0.2);
  });

  it.each([
    ['stats.invalid_count', [{ successes: 3, trials: 2 }]],
    ['stats.invalid_shape', []],
    ['stats.undefined_statistic', [{ successes: 0, trials: 0 }]],
  ])('refuses with %s: %j', (code, groups) => {
    expect(() => fitBetaBinomial(groups)).toThrow(expect.objectContaining({ code }));
  });
});
