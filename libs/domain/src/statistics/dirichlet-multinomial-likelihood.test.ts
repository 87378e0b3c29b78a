import { dirichletMultinomialLikelihood } from './dirichlet-multinomial-likelihood.js';
import { elementAt } from './element-at.js';

const TOY = [
  [10, 0, 0],
  [2, 7, 1],
  [5, 1, 4],
  [0, 6, 4],
];
// R 4.2.2, the fixed point written out, from alpha = (1, 1, 1); 12 decimals kept.
const ITERATES = [
  [1.046696743998, 0.942305528678, 0.805674939808],
  [1.020992813113, 0.886062990006, 0.731536128637],
];
const KEPT_DIGITS = 1e-11;

describe('Dirichlet-multinomial likelihood', () => {
  it('takes the first two steps of the fixed point as R does', () => {
    const likelihood = dirichletMultinomialLikelihood(TOY);
    let alpha = [1, 1, 1];
    for (const expected of ITERATES) {
      alpha = likelihood.fixedPoint(alpha);
      for (const [category, value] of expected.entries()) {
        expect(Math.abs(elementAt(alpha, category) - value)).toBeLessThanOrEqual(KEPT_DIGITS);
      }
    }
  });

  it('rises with every step of the fixed point', () => {
    const likelihood = dirichletMultinomialLikelihood(TOY);
    let alpha = [5, 0.1, 30];
    for (let step = 0; step < 50; step += 1) {
      const next = likelihood.fixedPoint(alpha);
      expect(likelihood.at(next)).toBeGreaterThan(likelihood.at(alpha));
      alpha = next;
    }
  });

  it('has slopes that match differences', () => {
    const likelihood = dirichletMultinomialLikelihood(TOY);
    const alpha = [0.7, 1.5, 0.4];
    for (const [category, slope] of likelihood.slopes(alpha).entries()) {
      const moved = (by: number): number[] => alpha.map((value, index) => (index === category ? value + by : value));
      const difference = (likelihood.at(moved(1e-5)) - likelihood.at(moved(-1e-5))) / 2e-5;
      expect(slope).toBeCloseTo(difference, 5);
    }
  });

  it('lands next to the maximum with Newton steps from nearby', () => {
    const likelihood = dirichletMultinomialLikelihood(TOY);
    let alpha = [0.6, 0.6, 0.5];
    for (let step = 0; step < 8; step += 1) {
      const by = likelihood.newtonStep(alpha);
      alpha = alpha.map((value, category) => value + elementAt(by ?? [0, 0, 0], category));
    }
    // The maximum as vglm(S ~ 1, dirmultinomial) of R gives it.
    expect(alpha.map((value) => Number(value.toFixed(9)))).toEqual([0.668850881, 0.583670236, 0.501755186]);
  });

  it('offers no Newton step where the likelihood curves upwards', () => {
    expect(dirichletMultinomialLikelihood(TOY).newtonStep([1000, 1000, 1000])).toBeNull();
  });
});
