import fc from 'fast-check';
import { clopperPearsonInterval } from './clopper-pearson-interval.js';
import { midPInterval } from './mid-p-interval.js';

// Newcombe (1998), Stat. Med. 17, 857–872, Table I, method 6; R 4.2.2 by root finding.
const HALF_A_PRINTED_DIGIT = 0.5e-4;
const KEPT_DIGITS = 1e-8;

describe('mid-P interval', () => {
  it.each([
    { successes: 81, trials: 263, lower: 0.2544, upper: 0.3658 },
    { successes: 15, trials: 148, lower: 0.0601, upper: 0.1581 },
    { successes: 0, trials: 20, lower: 0, upper: 0.1391 },
    { successes: 1, trials: 29, lower: 0.0017, upper: 0.1585 },
  ])('agrees with the printed table on $successes of $trials', ({ successes, trials, lower, upper }) => {
    const interval = midPInterval(successes, trials, 0.95);
    expect(Math.abs(interval.lower - lower)).toBeLessThanOrEqual(HALF_A_PRINTED_DIGIT);
    expect(Math.abs(interval.upper - upper)).toBeLessThanOrEqual(HALF_A_PRINTED_DIGIT);
  });

  it.each([
    { successes: 81, trials: 263, lower: 0.2544021049, upper: 0.3657734743 },
    { successes: 15, trials: 148, lower: 0.06006360267, upper: 0.1581217331 },
    { successes: 0, trials: 20, lower: 0, upper: 0.1391083407 },
    { successes: 1, trials: 29, lower: 0.0017247701147, upper: 0.1585373837 },
  ])('agrees with R on $successes of $trials', ({ successes, trials, lower, upper }) => {
    const interval = midPInterval(successes, trials, 0.95);
    expect(Math.abs(interval.lower - lower)).toBeLessThanOrEqual(KEPT_DIGITS);
    expect(Math.abs(interval.upper - upper)).toBeLessThanOrEqual(KEPT_DIGITS);
  });

  const cases = fc
    .integer({ min: 1, max: 2000 })
    .chain((trials) => fc.record({ trials: fc.constant(trials), successes: fc.integer({ min: 0, max: trials }) }));

  it('is mirrored when success and failure change places', () => {
    fc.assert(
      fc.property(cases, ({ trials, successes }) => {
        const interval = midPInterval(successes, trials, 0.9);
        const mirror = midPInterval(trials - successes, trials, 0.9);
        expect(mirror.lower).toBeCloseTo(1 - interval.upper, 8);
        expect(mirror.upper).toBeCloseTo(1 - interval.lower, 8);
      }),
    );
  });

  it('lies inside the Clopper-Pearson interval', () => {
    fc.assert(
      fc.property(cases, ({ trials, successes }) => {
        const inner = midPInterval(successes, trials, 0.9);
        const outer = clopperPearsonInterval(successes, trials, 0.9);
        expect(inner.lower).toBeGreaterThanOrEqual(outer.lower - 1e-9);
        expect(inner.upper).toBeLessThanOrEqual(outer.upper + 1e-9);
      }),
    );
  });

  it('has a bound of exactly 0 at no success and of exactly 1 at all', () => {
    expect(midPInterval(0, 9, 0.9).lower).toBe(0);
    expect(midPInterval(9, 9, 0.9).upper).toBe(1);
  });

  it.each([
    ['stats.invalid_count', () => midPInterval(0, 0, 0.9)],
    ['stats.invalid_count', () => midPInterval(3, 2, 0.9)],
    ['stats.invalid_probability', () => midPInterval(1, 2, 1)],
  ])('refuses with %s', (code, call) => {
    expect(call).toThrow(expect.objectContaining({ code }));
  });
});
