import fc from 'fast-check';
import { wilsonInterval, wilsonIntervalWeighted } from './wilson-interval.js';

// Newcombe (1998), Stat. Med. 17, 857–872, Table I, method 3; printed to 4 decimals.
const HALF_A_PRINTED_DIGIT = 0.5e-4;
// The same limits from R 4.2.2, prop.test(x, n, correct = FALSE), kept to 10 significant digits.
const KEPT_DIGITS = 1e-8;

describe('Wilson interval', () => {
  it.each([
    { successes: 81, trials: 263, lower: 0.2553, upper: 0.3662 },
    { successes: 15, trials: 148, lower: 0.0624, upper: 0.1605 },
    { successes: 0, trials: 20, lower: 0, upper: 0.1611 },
    { successes: 1, trials: 29, lower: 0.0061, upper: 0.1718 },
  ])('agrees with Newcombe on $successes of $trials', ({ successes, trials, lower, upper }) => {
    const interval = wilsonInterval(successes, trials, 0.95);
    expect(Math.abs(interval.lower - lower)).toBeLessThanOrEqual(HALF_A_PRINTED_DIGIT);
    expect(Math.abs(interval.upper - upper)).toBeLessThanOrEqual(HALF_A_PRINTED_DIGIT);
  });

  it.each([
    { successes: 81, trials: 263, lower: 0.2552885199, upper: 0.366209577 },
    { successes: 15, trials: 148, lower: 0.06238639953, upper: 0.1604872417 },
    { successes: 0, trials: 20, lower: 0, upper: 0.1611251581 },
    { successes: 1, trials: 29, lower: 0.0061132142928, upper: 0.1717552188 },
    { successes: 0, trials: 10, lower: 0, upper: 0.2775327999 },
    { successes: 10, trials: 10, lower: 0.7224672001, upper: 1 },
    { successes: 1, trials: 1, lower: 0.2065493144, upper: 1 },
    { successes: 0, trials: 1, lower: 0, upper: 0.7934506856 },
  ])('agrees with R on $successes of $trials', ({ successes, trials, lower, upper }) => {
    const interval = wilsonInterval(successes, trials, 0.95);
    expect(Math.abs(interval.lower - lower)).toBeLessThanOrEqual(KEPT_DIGITS);
    expect(Math.abs(interval.upper - upper)).toBeLessThanOrEqual(KEPT_DIGITS);
  });

  it('has bounds of exactly 0 and 1 at no and all successes', () => {
    for (const trials of [1, 3, 7, 29, 1000, 999_983]) {
      expect(wilsonInterval(0, trials, 0.9).lower).toBe(0);
      expect(wilsonInterval(trials, trials, 0.9).upper).toBe(1);
    }
  });

  const trialsAndSuccesses = fc
    .integer({ min: 1, max: 5000 })
    .chain((trials) => fc.record({ trials: fc.constant(trials), successes: fc.integer({ min: 0, max: trials }) }));

  it('is mirrored when success and failure change places', () => {
    fc.assert(
      fc.property(trialsAndSuccesses, ({ trials, successes }) => {
        const interval = wilsonInterval(successes, trials, 0.95);
        const mirror = wilsonInterval(trials - successes, trials, 0.95);
        expect(mirror.lower).toBeCloseTo(1 - interval.upper, 12);
        expect(mirror.upper).toBeCloseTo(1 - interval.lower, 12);
      }),
    );
  });

  it('contains the observed share, stays in [0, 1] and widens with confidence', () => {
    fc.assert(
      fc.property(trialsAndSuccesses, ({ trials, successes }) => {
        const narrow = wilsonInterval(successes, trials, 0.8);
        const wide = wilsonInterval(successes, trials, 0.99);
        const inOrder = [0, wide.lower, narrow.lower, successes / trials, narrow.upper, wide.upper, 1];
        expect(inOrder.toSorted((first, second) => first - second)).toEqual(inOrder);
      }),
    );
  });

  it('solves the score equation it stands for at both bounds', () => {
    fc.assert(
      fc.property(trialsAndSuccesses, ({ trials, successes }) => {
        const z = 1.959963984540054; // 97.5 % point of the normal distribution
        const { lower, upper } = wilsonInterval(successes, trials, 0.95);
        for (const bound of [lower, upper]) {
          const distance = (successes / trials - bound) ** 2;
          expect(distance).toBeCloseTo((z ** 2 * bound * (1 - bound)) / trials, 10);
        }
      }),
    );
  });

  it.each([
    ['stats.invalid_count', () => wilsonInterval(1, 0, 0.95)],
    ['stats.invalid_count', () => wilsonInterval(3, 2, 0.95)],
    ['stats.invalid_count', () => wilsonInterval(-1, 2, 0.95)],
    ['stats.invalid_count', () => wilsonInterval(0.5, 2, 0.95)],
    ['stats.invalid_count', () => wilsonInterval(Number.NaN, 2, 0.95)],
    ['stats.invalid_probability', () => wilsonInterval(1, 2, 1)],
    ['stats.invalid_probability', () => wilsonInterval(1, 2, 0)],
    ['stats.invalid_probability', () => wilsonIntervalWeighted(1.01, 2, 0.9)],
    ['stats.invalid_number', () => wilsonIntervalWeighted(0.5, 0, 0.9)],
  ])('refuses with %s', (code, call) => {
    expect(call).toThrow(expect.objectContaining({ code }));
  });
});

describe('Wilson interval of weighted trials', () => {
  it('is the plain interval when all trials weigh the same', () => {
    expect(wilsonIntervalWeighted(0.3, 40, 0.95)).toEqual(wilsonInterval(12, 40, 0.95));
  });

  it('narrows as the effective number of trials grows', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 0, max: 1, noNaN: true }),
        fc.double({ min: 0.5, max: 900, noNaN: true }),
        (share, trials) => {
          const few = wilsonIntervalWeighted(share, trials, 0.9);
          const many = wilsonIntervalWeighted(share, trials * 1.1, 0.9);
          expect(many.upper - many.lower).toBeLessThan(few.upper - few.lower);
        },
      ),
    );
  });
});
