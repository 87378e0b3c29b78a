import fc from 'fast-check';
import { clopperPearsonInterval } from '../clopper-pearson-interval.js';
import type { Interval } from '../interval.js';

// Test support: what every interval of a binomial share owes, whatever its method.

export type ShareInterval = (successes: number, trials: number, confidence: number) => Interval;

/** An interval as it was printed, at 95 %. */
export interface PrintedInterval extends Interval {
  readonly successes: number;
  readonly trials: number;
}

/** Newcombe (1998) prints four decimals. */
export const HALF_A_PRINTED_DIGIT = 0.5e-4;
/** Of values from R, of which ten significant digits are kept. */
export const KEPT_DIGITS = 1e-8;

export const SUCCESSES_OF_TRIALS: fc.Arbitrary<{ readonly successes: number; readonly trials: number }> = fc
  .integer({ min: 1, max: 5000 })
  .chain((trials) => fc.record({ trials: fc.constant(trials), successes: fc.integer({ min: 0, max: trials }) }));

export function itAgrees(
  interval: ShareInterval,
  source: string,
  tolerance: number,
  printed: readonly PrintedInterval[],
): void {
  it.each(printed)(`agrees with ${source} on $successes of $trials`, ({ successes, trials, lower, upper }) => {
    const found = interval(successes, trials, 0.95);
    expect(Math.abs(found.lower - lower)).toBeLessThanOrEqual(tolerance);
    expect(Math.abs(found.upper - upper)).toBeLessThanOrEqual(tolerance);
  });
}

/** @param digits - to which the mirror image is the same; it goes through quantiles, or through none */
export function itKeepsTheLawsOfIntervals(interval: ShareInterval, digits: number): void {
  it('is mirrored when success and failure change places', () => {
    fc.assert(
      fc.property(SUCCESSES_OF_TRIALS, ({ trials, successes }) => {
        const found = interval(successes, trials, 0.9);
        const mirror = interval(trials - successes, trials, 0.9);
        expect(mirror.lower).toBeCloseTo(1 - found.upper, digits);
        expect(mirror.upper).toBeCloseTo(1 - found.lower, digits);
      }),
    );
  });

  it('has a bound of exactly 0 at no success and of exactly 1 at all', () => {
    for (const trials of [1, 3, 7, 9, 29, 1000]) {
      expect(interval(0, trials, 0.9).lower).toBe(0);
      expect(interval(trials, trials, 0.9).upper).toBe(1);
    }
  });

  it.each([
    { code: 'stats.invalid_count', successes: 0, trials: 0, confidence: 0.9 },
    { code: 'stats.invalid_count', successes: 3, trials: 2, confidence: 0.9 },
    { code: 'stats.invalid_count', successes: -1, trials: 2, confidence: 0.9 },
    { code: 'stats.invalid_count', successes: 0.5, trials: 2, confidence: 0.9 },
    { code: 'stats.invalid_count', successes: Number.NaN, trials: 2, confidence: 0.9 },
    { code: 'stats.invalid_probability', successes: 1, trials: 2, confidence: 1 },
    { code: 'stats.invalid_probability', successes: 1, trials: 2, confidence: 0 },
  ])('refuses $successes of $trials at $confidence with $code', ({ code, successes, trials, confidence }) => {
    expect(() => interval(successes, trials, confidence)).toThrow(expect.objectContaining({ code }));
  });
}

export function itLiesInsideClopperPearson(interval: ShareInterval): void {
  it('lies inside the Clopper-Pearson interval', () => {
    fc.assert(
      fc.property(SUCCESSES_OF_TRIALS, ({ trials, successes }) => {
        const inner = interval(successes, trials, 0.9);
        const outer = clopperPearsonInterval(successes, trials, 0.9);
        expect(inner.lower).toBeGreaterThanOrEqual(outer.lower - 1e-9);
        expect(inner.upper).toBeLessThanOrEqual(outer.upper + 1e-9);
      }),
    );
  });
}
