import fc from 'fast-check';
import { newcombeDifferenceInterval } from './newcombe-difference-interval.js';

// Newcombe (1998), Stat. Med. 17, 873–890, Table II, method 10, printed to 4 decimals; the longer digits from R 4.2.2.
const HALF_A_PRINTED_DIGIT = 0.5e-4;
const KEPT_DIGITS = 1e-8;

const TABLE = [
  { first: [56, 70], second: [48, 80], printed: [0.0524, 0.3339], kept: [0.052431472, 0.333872654] },
  { first: [9, 10], second: [3, 10], printed: [0.1705, 0.809], kept: [0.17052272, 0.80901797] },
  { first: [6, 7], second: [2, 7], printed: [0.0582, 0.8062], kept: [0.058227927, 0.806249638] },
  { first: [5, 56], second: [0, 29], printed: [-0.0381, 0.1926], kept: [-0.038137148, 0.192560014] },
  { first: [0, 10], second: [0, 20], printed: [-0.1611, 0.2775], kept: [-0.16112516, 0.2775328] },
  { first: [0, 10], second: [0, 10], printed: [-0.2775, 0.2775], kept: [-0.2775328, 0.2775328] },
  { first: [10, 10], second: [0, 20], printed: [0.6791, 1], kept: [0.67908604, 1] },
  { first: [10, 10], second: [0, 10], printed: [0.6075, 1], kept: [0.60750935, 1] },
] as const;

const proportion = ([successes, trials]: readonly [number, number]): { successes: number; trials: number } => ({
  successes,
  trials,
});

describe('Newcombe interval of a difference', () => {
  it.each(TABLE)('agrees with Table II on $first against $second', ({ first, second, printed, kept }) => {
    const { lower, upper } = newcombeDifferenceInterval(proportion(first), proportion(second), 0.95);
    expect(Math.abs(lower - printed[0])).toBeLessThanOrEqual(HALF_A_PRINTED_DIGIT);
    expect(Math.abs(upper - printed[1])).toBeLessThanOrEqual(HALF_A_PRINTED_DIGIT);
    expect(Math.abs(lower - kept[0])).toBeLessThanOrEqual(KEPT_DIGITS);
    expect(Math.abs(upper - kept[1])).toBeLessThanOrEqual(KEPT_DIGITS);
  });

  const proportions = fc
    .integer({ min: 1, max: 500 })
    .chain((trials) => fc.record({ trials: fc.constant(trials), successes: fc.integer({ min: 0, max: trials }) }));

  it('turns its sign when the two shares change places, contains the difference and stays in [-1, 1]', () => {
    fc.assert(
      fc.property(proportions, proportions, (first, second) => {
        const { lower, upper } = newcombeDifferenceInterval(first, second, 0.9);
        const turned = newcombeDifferenceInterval(second, first, 0.9);
        expect(turned.lower).toBeCloseTo(-upper, 12);
        expect(turned.upper).toBeCloseTo(-lower, 12);
        const difference = first.successes / first.trials - second.successes / second.trials;
        expect(lower).toBeLessThanOrEqual(difference);
        expect(upper).toBeGreaterThanOrEqual(difference);
        expect(lower).toBeGreaterThanOrEqual(-1 - 1e-12);
        expect(upper).toBeLessThanOrEqual(1 + 1e-12);
      }),
    );
  });

  it.each([
    ['stats.invalid_count', () => newcombeDifferenceInterval(proportion([1, 0]), proportion([1, 2]), 0.9)],
    ['stats.invalid_count', () => newcombeDifferenceInterval(proportion([1, 2]), proportion([3, 2]), 0.9)],
    ['stats.invalid_probability', () => newcombeDifferenceInterval(proportion([1, 2]), proportion([1, 2]), 0)],
  ])('refuses with %s', (code, call) => {
    expect(call).toThrow(expect.objectContaining({ code }));
  });
});
