import fc from 'fast-check';
import type { Interval } from './interval.js';
import { clopperPearsonInterval } from './clopper-pearson-interval.js';

// Newcombe (1998), Stat. Med. 17, 857–872, Table I, method 5; R 4.2.2: binom.test(x, n)$conf.int.
const HALF_A_PRINTED_DIGIT = 0.5e-4;
const KEPT_DIGITS = 1e-8;

describe('Clopper-Pearson interval', () => {
  it.each([
    { successes: 81, trials: 263, lower: 0.2527, upper: 0.3676 },
    { successes: 15, trials: 148, lower: 0.0578, upper: 0.1617 },
    { successes: 0, trials: 20, lower: 0, upper: 0.1684 },
    { successes: 1, trials: 29, lower: 0.0009, upper: 0.1776 },
  ])('agrees with the printed table on $successes of $trials', ({ successes, trials, lower, upper }) => {
    const interval = clopperPearsonInterval(successes, trials, 0.95);
    expect(Math.abs(interval.lower - lower)).toBeLessThanOrEqual(HALF_A_PRINTED_DIGIT);
    expect(Math.abs(interval.upper - upper)).toBeLessThanOrEqual(HALF_A_PRINTED_DIGIT);
  });

  it.each([
    { successes: 81, trials: 263, lower: 0.2527367456, upper: 0.3676219226 },
    { successes: 15, trials: 148, lower: 0.05784401008, upper: 0.1616504903 },
    { successes: 0, trials: 20, lower: 0, upper: 0.168433471 },
    { successes: 1, trials: 29, lower: 0.0008726468836, upper: 0.1776442955 },
    { successes: 0, trials: 10, lower: 0, upper: 0.3084971078 },
    { successes: 0, trials: 1, lower: 0, upper: 0.975 },
  ])('agrees with R on $successes of $trials', ({ successes, trials, lower, upper }) => {
    const interval = clopperPearsonInterval(successes, trials, 0.95);
    expect(Math.abs(interval.lower - lower)).toBeLessThanOrEqual(KEPT_DIGITS);
    expect(Math.abs(interval.upper - upper)).toBeLessThanOrEqual(KEPT_DIGITS);
  });

  const cases = fc
    .integer({ min: 1, max: 2000 })
    .chain((trials) => fc.record({ trials: fc.constant(trials), successes: fc.integer({ min: 0, max: trials }) }));

  it('is mirrored when success and failure change places', () => {
    fc.assert(
      fc.property(cases, ({ trials, successes }) => {
        const interval = clopperPearsonInterval(successes, trials, 0.9);
        const mirror = clopperPearsonInterval(trials - successes, trials, 0.9);
        expect(mirror.lower).toBeCloseTo(1 - interval.upper, 8);
        expect(mirror.upper).toBeCloseTo(1 - interval.lower, 8);
      }),
    );
  });

  it('covers at least as often as stated, at any true share', () => {
    const trials = 12;
    const intervals = Array.from({ length: trials + 1 }, (_, successes) =>
      clopperPearsonInterval(successes, trials, 0.9),
    );
    for (let share = 0.02; share < 1; share += 0.02) {
      expect(coverage(intervals, trials, share)).toBeGreaterThanOrEqual(0.9);
    }
  });

  it('has a bound of exactly 0 at no success and of exactly 1 at all', () => {
    expect(clopperPearsonInterval(0, 9, 0.9).lower).toBe(0);
    expect(clopperPearsonInterval(9, 9, 0.9).upper).toBe(1);
  });

  it.each([
    ['stats.invalid_count', () => clopperPearsonInterval(0, 0, 0.9)],
    ['stats.invalid_count', () => clopperPearsonInterval(3, 2, 0.9)],
    ['stats.invalid_probability', () => clopperPearsonInterval(1, 2, 1)],
  ])('refuses with %s', (code, call) => {
    expect(call).toThrow(expect.objectContaining({ code }));
  });
});

function coverage(intervals: readonly Interval[], trials: number, share: number): number {
  let probability = (1 - share) ** trials;
  let covered = 0;
  for (const [successes, { lower, upper }] of intervals.entries()) {
    if (lower <= share && share <= upper) covered += probability;
    probability *= ((trials - successes) / (successes + 1)) * (share / (1 - share));
  }
  return covered;
}
