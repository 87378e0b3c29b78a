import fc from 'fast-check';
import { dirichletMultinomialPosterior } from './dirichlet-multinomial-posterior.js';
import { elementAt } from './element-at.js';

describe('Dirichlet posterior', () => {
  // R 4.2.2, (x + alpha) / (n + A) with the fit of the 4 × 3 table; see fit-dirichlet-multinomial.test.ts.
  it('agrees with R on 3, 2 and 0 plays', () => {
    const concentration = 1.75427630348;
    const mean = [0.668850881277, 0.583670235703, 0.501755186498].map((alpha) => alpha / concentration);
    const estimates = dirichletMultinomialPosterior([3, 2, 0], mean, concentration, 0.9);
    for (const [category, share] of [0.543189339084, 0.382523622016, 0.0742870389].entries()) {
      expect(Math.abs(elementAt(estimates, category).share - share)).toBeLessThanOrEqual(1e-9);
    }
  });

  // R 4.2.2: qbeta(c(.025, .975), 5, 17) and qbeta(c(.05, .95), 4.5, 16.5), posteriors of 4 in 20.
  it.each([
    { concentration: 2, confidence: 0.95, share: 0.2272727273, lower: 0.0821758756, upper: 0.4190660412 },
    { concentration: 1, confidence: 0.9, share: 0.2142857143, lower: 0.0873350328, upper: 0.372739285 },
  ])(
    'agrees with R on 4 of 20 and $concentration plays of prior',
    ({ concentration, confidence, share, lower, upper }) => {
      const estimate = elementAt(dirichletMultinomialPosterior([4, 16], [0.5, 0.5], concentration, confidence), 0);
      expect(Math.abs(estimate.share - share)).toBeLessThanOrEqual(1e-9);
      expect(Math.abs(estimate.interval.lower - lower)).toBeLessThanOrEqual(1e-9);
      expect(Math.abs(estimate.interval.upper - upper)).toBeLessThanOrEqual(1e-9);
    },
  );

  // Gelman et al. (2013), section 3.4: 727, 583 and 137 under a uniform prior have the posterior Dirichlet(728, 584, 138).
  it('has the difference of shares that the pre-election poll is known by', () => {
    const estimates = dirichletMultinomialPosterior([727, 583, 137], [1 / 3, 1 / 3, 1 / 3], 3, 0.9);
    expect(
      Math.abs(elementAt(estimates, 0).share - elementAt(estimates, 1).share - 0.0993103448276),
    ).toBeLessThanOrEqual(1e-12);
  });

  it('lies between the field and the player, with its share inside its interval', () => {
    const plays = fc.double({ min: 0.1, max: 200, noNaN: true });
    fc.assert(
      fc.property(plays, plays, plays, (first, second, concentration) => {
        const estimates = dirichletMultinomialPosterior([first, second], [0.3, 0.7], concentration, 0.9);
        const { share, interval } = elementAt(estimates, 0);
        const own = first / (first + second);
        expect(share).toBeGreaterThanOrEqual(Math.min(own, 0.3) - 1e-12);
        expect(share).toBeLessThanOrEqual(Math.max(own, 0.3) + 1e-12);
        expect(interval.lower).toBeLessThan(interval.upper);
        // Both shares are one statement: the second category's interval mirrors the first's.
        expect(elementAt(estimates, 1).interval.upper).toBeCloseTo(1 - interval.lower, 7);
      }),
    );
  });

  it('is the prior for a player without plays', () => {
    const estimates = dirichletMultinomialPosterior([0, 0, 0], [0.2, 0.3, 0.5], 12, 0.9);
    expect(estimates.map(({ share }) => Number(share.toFixed(12)))).toEqual([0.2, 0.3, 0.5]);
  });

  it.each([
    ['stats.invalid_shape', () => dirichletMultinomialPosterior([1], [0.5, 0.5], 1, 0.9)],
    ['stats.invalid_probability', () => dirichletMultinomialPosterior([1, 1], [0, 1], 1, 0.9)],
    ['stats.invalid_probability', () => dirichletMultinomialPosterior([1, 1], [0.5, 0.5], 1, 1)],
    ['stats.invalid_number', () => dirichletMultinomialPosterior([1, -1], [0.5, 0.5], 1, 0.9)],
    ['stats.invalid_number', () => dirichletMultinomialPosterior([1, 1], [0.5, 0.5], 0, 0.9)],
  ])('refuses with %s', (code, call) => {
    expect(call).toThrow(expect.objectContaining({ code }));
  });
});
