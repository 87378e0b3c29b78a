import fc from 'fast-check';
import {
  HALF_A_PRINTED_DIGIT,
  itAgrees,
  itKeepsTheLawsOfIntervals,
  KEPT_DIGITS,
  SUCCESSES_OF_TRIALS,
} from './testing/interval-laws.js';
import { wilsonInterval, wilsonIntervalWeighted } from './wilson-interval.js';

// Newcombe (1998), Stat. Med. 17, 857–872, Table I, method 3; the same limits from R 4.2.2, prop.test(x, n, correct = FALSE).

describe('Wilson interval', () => {
  itAgrees(wilsonInterval, 'Newcombe', HALF_A_PRINTED_DIGIT, [
    { successes: 81, trials: 263, lower: 0.2553, upper: 0.3662 },
    { successes: 15, trials: 148, lower: 0.0624, upper: 0.1605 },
    { successes: 0, trials: 20, lower: 0, upper: 0.1611 },
    { successes: 1, trials: 29, lower: 0.0061, upper: 0.1718 },
  ]);

  itAgrees(wilsonInterval, 'R', KEPT_DIGITS, [
    { successes: 81, trials: 263, lower: 0.2552885199, upper: 0.366209577 },
    { successes: 15, trials: 148, lower: 0.06238639953, upper: 0.1604872417 },
    { successes: 0, trials: 20, lower: 0, upper: 0.1611251581 },
    { successes: 1, trials: 29, lower: 0.0061132142928, upper: 0.1717552188 },
    { successes: 0, trials: 10, lower: 0, upper: 0.2775327999 },
    { successes: 10, trials: 10, lower: 0.7224672001, upper: 1 },
    { successes: 1, trials: 1, lower: 0.2065493144, upper: 1 },
    { successes: 0, trials: 1, lower: 0, upper: 0.7934506856 },
  ]);

  itKeepsTheLawsOfIntervals(wilsonInterval, 12);

  it('has a bound of exactly 0 and 1 on very many trials too', () => {
    expect(wilsonInterval(0, 999_983, 0.9).lower).toBe(0);
    expect(wilsonInterval(999_983, 999_983, 0.9).upper).toBe(1);
  });

  it('contains the observed share, stays in [0, 1] and widens with confidence', () => {
    fc.assert(
      fc.property(SUCCESSES_OF_TRIALS, ({ trials, successes }) => {
        const narrow = wilsonInterval(successes, trials, 0.8);
        const wide = wilsonInterval(successes, trials, 0.99);
        const inOrder = [0, wide.lower, narrow.lower, successes / trials, narrow.upper, wide.upper, 1];
        expect(inOrder.toSorted((first, second) => first - second)).toEqual(inOrder);
      }),
    );
  });

  it('solves the score equation it stands for at both bounds', () => {
    fc.assert(
      fc.property(SUCCESSES_OF_TRIALS, ({ trials, successes }) => {
        const z = 1.959963984540054; // 97.5 % point of the normal distribution
        const { lower, upper } = wilsonInterval(successes, trials, 0.95);
        for (const bound of [lower, upper]) {
          const distance = (successes / trials - bound) ** 2;
          expect(distance).toBeCloseTo((z ** 2 * bound * (1 - bound)) / trials, 10);
        }
      }),
    );
  });
});

describe('Wilson interval of weighted trials', () => {
  it.each([
    ['stats.invalid_probability', () => wilsonIntervalWeighted(1.01, 2, 0.9)],
    ['stats.invalid_number', () => wilsonIntervalWeighted(0.5, 0, 0.9)],
  ])('refuses with %s', (code, call) => {
    expect(call).toThrow(expect.objectContaining({ code }));
  });

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
