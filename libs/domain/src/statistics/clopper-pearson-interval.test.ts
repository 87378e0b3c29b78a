import { clopperPearsonInterval } from './clopper-pearson-interval.js';
import type { Interval } from './interval.js';
import { HALF_A_PRINTED_DIGIT, KEPT_DIGITS, itAgrees, itKeepsTheLawsOfIntervals } from './testing/interval-laws.js';

// Newcombe (1998), Stat. Med. 17, 857–872, Table I, method 5; R 4.2.2: binom.test(x, n)$conf.int.

describe('Clopper-Pearson interval', () => {
  itAgrees(clopperPearsonInterval, 'Newcombe', HALF_A_PRINTED_DIGIT, [
    { successes: 81, trials: 263, lower: 0.2527, upper: 0.3676 },
    { successes: 15, trials: 148, lower: 0.0578, upper: 0.1617 },
    { successes: 0, trials: 20, lower: 0, upper: 0.1684 },
    { successes: 1, trials: 29, lower: 0.0009, upper: 0.1776 },
  ]);

  itAgrees(clopperPearsonInterval, 'R', KEPT_DIGITS, [
    { successes: 81, trials: 263, lower: 0.2527367456, upper: 0.3676219226 },
    { successes: 15, trials: 148, lower: 0.05784401008, upper: 0.1616504903 },
    { successes: 0, trials: 20, lower: 0, upper: 0.168433471 },
    { successes: 1, trials: 29, lower: 0.0008726468836, upper: 0.1776442955 },
    { successes: 0, trials: 10, lower: 0, upper: 0.3084971078 },
    { successes: 0, trials: 1, lower: 0, upper: 0.975 },
  ]);

  itKeepsTheLawsOfIntervals(clopperPearsonInterval, 8);

  it('covers at least as often as stated, at any true share', () => {
    const trials = 12;
    const intervals = Array.from({ length: trials + 1 }, (_, successes) =>
      clopperPearsonInterval(successes, trials, 0.9),
    );
    for (let share = 0.02; share < 1; share += 0.02) {
      expect(coverage(intervals, trials, share)).toBeGreaterThanOrEqual(0.9);
    }
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
