import fc from 'fast-check';
import { dirichletMultinomialEvidence } from './dirichlet-multinomial-evidence.js';

describe('evidence of a Dirichlet prior', () => {
  // By hand: the second success of two has probability (A/2 + 1) / (A + 1) after the first's ½.
  it.each([
    { counts: [1, 0], concentration: 3, expected: 1 / 2 },
    { counts: [2, 0], concentration: 2, expected: 1 / 3 },
    { counts: [2, 0], concentration: 6, expected: 2 / 7 },
    { counts: [1, 1], concentration: 2, expected: 1 / 6 },
    { counts: [0, 0], concentration: 9, expected: 1 },
  ])('is $expected for $counts under $concentration plays', ({ counts, concentration, expected }) => {
    expect(Math.exp(dirichletMultinomialEvidence(counts, [0.5, 0.5], concentration))).toBeCloseTo(expected, 12);
  });

  it('adds up to 1 over the orders of a few plays', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 0.01, max: 0.99, noNaN: true }),
        fc.double({ min: 0.05, max: 200, noNaN: true }),
        fc.integer({ min: 1, max: 8 }),
        (share, concentration, plays) => {
          let sum = 0;
          let orders = 1;
          for (let first = 0; first <= plays; first += 1) {
            sum +=
              orders *
              Math.exp(dirichletMultinomialEvidence([first, plays - first], [share, 1 - share], concentration));
            orders = (orders * (plays - first)) / (first + 1);
          }
          expect(sum).toBeCloseTo(1, 9);
        },
      ),
    );
  });

  it.each([
    ['stats.invalid_probability', () => dirichletMultinomialEvidence([1, 1], [1, 0], 1)],
    ['stats.invalid_shape', () => dirichletMultinomialEvidence([1], [0.5, 0.5], 1)],
    ['stats.invalid_number', () => dirichletMultinomialEvidence([1, -1], [0.5, 0.5], 1)],
    ['stats.invalid_number', () => dirichletMultinomialEvidence([1, 1], [0.5, 0.5], 0)],
  ])('refuses with %s', (code, call) => {
    expect(call).toThrow(expect.objectContaining({ code }));
  });
});
