import fc from 'fast-check';
import { clopperPearsonInterval } from './clopper-pearson-interval.js';
import { jeffreysInterval } from './jeffreys-interval.js';

// R 4.2.2: qbeta(c(.025, .975), x + .5, n - x + .5), with the boundary rule of Brown, Cai & DasGupta (2001),
// Statistical Science 16, 101–133; the eight rows of seven trials are those of their Table 5.
const KEPT_DIGITS = 1e-8;

describe('Jeffreys interval', () => {
  it.each([
    { successes: 81, trials: 263, lower: 0.254521935, upper: 0.3656474992 },
    { successes: 15, trials: 148, lower: 0.06044851701, upper: 0.1576431435 },
    { successes: 0, trials: 20, lower: 0, upper: 0.1166389829 },
    { successes: 1, trials: 29, lower: 0.0037461736491, upper: 0.150077686 },
    { successes: 0, trials: 7, lower: 0, upper: 0.2924361737 },
    { successes: 1, trials: 7, lower: 0.01587652421, upper: 0.5007974616 },
    { successes: 2, trials: 7, lower: 0.06472826695, upper: 0.647661655 },
    { successes: 3, trials: 7, lower: 0.1388642191, upper: 0.7654987507 },
    { successes: 4, trials: 7, lower: 0.2345012493, upper: 0.8611357809 },
    { successes: 5, trials: 7, lower: 0.352338345, upper: 0.9352717331 },
    { successes: 6, trials: 7, lower: 0.4992025384, upper: 0.9841234758 },
    { successes: 7, trials: 7, lower: 0.7075638263, upper: 1 },
  ])('agrees with R on $successes of $trials', ({ successes, trials, lower, upper }) => {
    const interval = jeffreysInterval(successes, trials, 0.95);
    expect(Math.abs(interval.lower - lower)).toBeLessThanOrEqual(KEPT_DIGITS);
    expect(Math.abs(interval.upper - upper)).toBeLessThanOrEqual(KEPT_DIGITS);
  });

  const cases = fc
    .integer({ min: 1, max: 2000 })
    .chain((trials) => fc.record({ trials: fc.constant(trials), successes: fc.integer({ min: 0, max: trials }) }));

  it('is mirrored when success and failure change places', () => {
    fc.assert(
      fc.property(cases, ({ trials, successes }) => {
        const interval = jeffreysInterval(successes, trials, 0.9);
        const mirror = jeffreysInterval(trials - successes, trials, 0.9);
        expect(mirror.lower).toBeCloseTo(1 - interval.upper, 8);
        expect(mirror.upper).toBeCloseTo(1 - interval.lower, 8);
      }),
    );
  });

  it('lies inside the Clopper-Pearson interval', () => {
    fc.assert(
      fc.property(cases, ({ trials, successes }) => {
        const inner = jeffreysInterval(successes, trials, 0.9);
        const outer = clopperPearsonInterval(successes, trials, 0.9);
        expect(inner.lower).toBeGreaterThanOrEqual(outer.lower - 1e-9);
        expect(inner.upper).toBeLessThanOrEqual(outer.upper + 1e-9);
      }),
    );
  });

  it('has a bound of exactly 0 at no success and of exactly 1 at all', () => {
    expect(jeffreysInterval(0, 9, 0.9).lower).toBe(0);
    expect(jeffreysInterval(9, 9, 0.9).upper).toBe(1);
  });

  it.each([
    ['stats.invalid_count', () => jeffreysInterval(0, 0, 0.9)],
    ['stats.invalid_count', () => jeffreysInterval(3, 2, 0.9)],
    ['stats.invalid_probability', () => jeffreysInterval(1, 2, 1)],
  ])('refuses with %s', (code, call) => {
    expect(call).toThrow(expect.objectContaining({ code }));
  });
});
