import fc from 'fast-check';
import { elementAt } from './element-at.js';
import { jamesStein } from './james-stein.js';

// Efron & Morris (1975), J. Am. Stat. Assoc. 70, 311–319: 18 batters, hits in their first 45 at-bats.
const HITS = [18, 17, 16, 15, 14, 14, 13, 12, 11, 11, 10, 10, 10, 10, 10, 9, 8, 7];
// The same batters' averages over the rest of the season.
const REMAINDER = [
  0.346, 0.298, 0.276, 0.222, 0.273, 0.27, 0.263, 0.21, 0.269, 0.23, 0.264, 0.256, 0.303, 0.264, 0.226, 0.285, 0.316,
  0.2,
];
const KEPT_DIGITS = 1e-8;

describe('James-Stein estimate', () => {
  const shares = HITS.map((hits) => hits / 45);
  const grandMean = shares.reduce((sum, share) => sum + share, 0) / shares.length;
  const squaredError = (estimates: readonly number[]): number =>
    estimates.reduce((sum, estimate, index) => sum + (estimate - elementAt(REMAINDER, index)) ** 2, 0);

  // Efron & Morris (1977), Scientific American 236(5), 119–127: grand mean .265 and factor .212; longer digits from R 4.2.2.
  it('agrees with the batters on the scale of shares', () => {
    const { mean, shrink, estimates } = jamesStein(shares, (grandMean * (1 - grandMean)) / 45);
    expect(Math.abs(mean - 0.265)).toBeLessThanOrEqual(0.5e-3);
    expect(Math.abs(shrink - 0.212)).toBeLessThanOrEqual(0.5e-3);
    expect(Math.abs(shrink - 0.211653417)).toBeLessThanOrEqual(KEPT_DIGITS);
    const expected = [
      0.293913855, 0.289210446, 0.284507036, 0.279803627, 0.275100218, 0.275100218, 0.270396809, 0.265693399,
      0.26098999, 0.26098999, 0.256286581, 0.256286581, 0.256286581, 0.256286581, 0.256286581, 0.251583171, 0.246879762,
      0.242176353,
    ];
    for (const [index, value] of expected.entries()) {
      expect(Math.abs(elementAt(estimates, index) - value)).toBeLessThanOrEqual(KEPT_DIGITS);
    }
    expect(Math.abs(squaredError(shares) / squaredError(estimates) - 3.5348595)).toBeLessThanOrEqual(1e-6);
  });

  // Efron & Morris (1975), J. Am. Stat. Assoc. 70, 311–319, on the arcsine scale, where the variance is 1; R 4.2.2.
  it('agrees with the batters on the arcsine scale', () => {
    const { mean, shrink, estimates } = jamesStein(
      shares.map((share) => Math.sqrt(45) * Math.asin(2 * share - 1)),
      1,
    );
    expect(Math.abs(mean - -3.31656314)).toBeLessThanOrEqual(1e-7);
    expect(Math.abs(shrink - 0.208974232)).toBeLessThanOrEqual(1e-7);
    const back = estimates.map((estimate) => (Math.sin(estimate / Math.sqrt(45)) + 1) / 2);
    const expected = [
      0.290127228, 0.285813319, 0.281468989, 0.277084018, 0.272647075, 0.272647075, 0.268145361, 0.26356412,
      0.258885989, 0.258885989, 0.254090074, 0.254090074, 0.254090074, 0.254090074, 0.254090074, 0.249150603,
      0.244034895, 0.238700135,
    ];
    for (const [index, value] of expected.entries()) {
      expect(Math.abs(elementAt(back, index) - value)).toBeLessThanOrEqual(1e-7);
    }
  });

  it('moves with its values, and never past the mean', () => {
    const values = fc.array(fc.double({ min: -50, max: 50, noNaN: true }), { minLength: 4, maxLength: 20 });
    fc.assert(
      fc.property(values, fc.double({ min: 0.1, max: 20, noNaN: true }), (list, variance) => {
        const { shrink, estimates } = jamesStein(list, variance);
        const moved = jamesStein(
          list.map((value) => value + 7),
          variance,
        );
        expect(shrink).toBeGreaterThanOrEqual(0);
        expect(shrink).toBeLessThanOrEqual(1);
        for (const [index, estimate] of estimates.entries()) {
          expect(elementAt(moved.estimates, index)).toBeCloseTo(estimate + 7, 6);
        }
      }),
    );
  });

  it('is the mean where the values agree', () => {
    expect(jamesStein([2, 2, 2, 2], 1)).toEqual({ mean: 2, shrink: 0, estimates: [2, 2, 2, 2] });
  });

  it.each([
    ['stats.invalid_shape', [1, 2, 3], 1],
    ['stats.invalid_number', [1, 2, 3, Number.NaN], 1],
    ['stats.invalid_number', [1, 2, 3, 4], 0],
  ])('refuses with %s: %j', (code, values, variance) => {
    expect(() => jamesStein(values, variance)).toThrow(expect.objectContaining({ code }));
  });
});
