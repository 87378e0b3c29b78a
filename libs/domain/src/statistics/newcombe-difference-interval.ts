import type { Interval } from './interval.js';
import { assertProportion, type Proportion } from './proportion.js';
import { wilsonInterval } from './wilson-interval.js';

/**
 * Interval for the difference of two independent shares, first minus second, made of their two Wilson
 * intervals. Stays in [-1, 1] and behaves at shares of 0 and 1, where the usual normal one collapses.
 *
 * @param first      - successes of trials, trials ≥ 1
 * @param second     - likewise
 * @param confidence - probability in (0, 1)
 * @returns bounds of the difference, -1 ≤ lower ≤ upper ≤ 1
 * @throws DomainError `stats.invalid_count`, `stats.invalid_probability`
 * @see Newcombe (1998), Stat. Med. 17, 873–890, method 10
 */
export function newcombeDifferenceInterval(first: Proportion, second: Proportion, confidence: number): Interval {
  assertProportion('first', first);
  assertProportion('second', second);

  const [shareOfFirst, shareOfSecond] = [first.successes / first.trials, second.successes / second.trials];
  const ofFirst = wilsonInterval(first.successes, first.trials, confidence);
  const ofSecond = wilsonInterval(second.successes, second.trials, confidence);
  const difference = shareOfFirst - shareOfSecond;
  // The difference is smallest where the first is low and the second high: those two arms belong together.
  return {
    lower: difference - Math.hypot(shareOfFirst - ofFirst.lower, ofSecond.upper - shareOfSecond),
    upper: difference + Math.hypot(ofFirst.upper - shareOfFirst, shareOfSecond - ofSecond.lower),
  };
}
