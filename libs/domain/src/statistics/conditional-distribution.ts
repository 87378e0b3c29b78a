import { elementAt } from './element-at.js';
import { logChoose } from './log-choose.js';
import { marginsOf, type TwoByTwo } from './two-by-two.js';

/** A distribution over consecutive integers: probabilities[i] belongs to first + i. */
export interface IntegerDistribution {
  readonly first: number;
  readonly probabilities: readonly number[];
}

/**
 * The upper left count of a 2 × 2 table when its margins are given and the odds ratio is known:
 * Fisher's noncentral hypergeometric distribution, the ordinary one at a log odds ratio of 0.
 *
 * @param table        - gives the margins
 * @param logOddsRatio - natural logarithm, finite
 * @see Fisher (1935), J. R. Stat. Soc. 98, 39–82
 */
export function conditionalDistribution(table: TwoByTwo, logOddsRatio = 0): IntegerDistribution {
  const { firstRow, secondRow, firstColumn } = marginsOf(table);
  const first = Math.max(0, firstColumn - secondRow);
  const last = Math.min(firstRow, firstColumn);
  const logs = Array.from({ length: last - first + 1 }, (_, step) => {
    const count = first + step;
    return logChoose(firstRow, count) + logChoose(secondRow, firstColumn - count) + count * logOddsRatio;
  });
  const largest = Math.max(...logs);
  const weights = logs.map((log) => Math.exp(log - largest));
  const sum = weights.reduce((total, weight) => total + weight, 0);
  return { first, probabilities: weights.map((weight) => weight / sum) };
}

/** The distribution of the sum of two independent counts. Only sums of positive terms: no digits are lost. */
export function convolve(left: IntegerDistribution, right: IntegerDistribution): IntegerDistribution {
  const probabilities = new Array<number>(left.probabilities.length + right.probabilities.length - 1).fill(0);
  for (const [here, probability] of left.probabilities.entries()) {
    for (const [there, other] of right.probabilities.entries()) {
      probabilities[here + there] = elementAt(probabilities, here + there) + probability * other;
    }
  }
  return { first: left.first + right.first, probabilities };
}

/** Expected value of a distribution over integers. */
export function meanOf({ first, probabilities }: IntegerDistribution): number {
  return probabilities.reduce((sum, probability, step) => sum + probability * step, first);
}
