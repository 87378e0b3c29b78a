import { DomainError } from '../domain-error.js';
import { normalCdf } from './distributions.js';
import { assertCount } from './guards.js';
import { logChoose } from './log-choose.js';

export interface RunsTest {
  readonly runs: number;
  readonly mean: number;
  readonly variance: number;
  /** Above 0: too many changes; below 0: too few. No continuity correction. */
  readonly z: number;
  readonly normalPValue: number;
  readonly exact: {
    /** P(as few runs or fewer). */
    readonly fewer: number;
    /** P(as many runs or more). */
    readonly more: number;
    /** P(as far from the mean or farther). Below 20 of either kind trust this one and not the normal value. */
    readonly twoSided: number;
  };
}

// Distances from the mean that agree to this many runs are the same distance.
const SAME_DISTANCE = 1e-9;

/**
 * Does a sequence of two kinds change too often or too seldom for chance, given how many there are of each?
 * One unbroken series: never join games or halves. The situation drives calls too: test inside a situation.
 *
 * @param sequence - in order; both kinds present
 * @throws DomainError `stats.undefined_statistic` where only one kind is present
 * @see Wald & Wolfowitz (1940), Ann. Math. Stat. 11, 147–162; Siegel (1956), Nonparametric Statistics, ch. 4
 */
export function runsTest(sequence: readonly boolean[]): RunsTest {
  const runs = sequence.filter((kind, index) => index === 0 || kind !== sequence[index - 1]).length;
  const first = sequence.filter(Boolean).length;
  return runsTestOf(runs, first, sequence.length - first);
}

/**
 * The same test from its three counts.
 *
 * @param runs   - stretches of one kind; integer, 1 ≤ runs ≤ first + second
 * @param first  - how many of the first kind; integer ≥ 0
 * @param second - how many of the second; integer ≥ 0
 * @throws DomainError `stats.invalid_count`; `stats.undefined_statistic` where one kind is missing
 */
export function runsTestOf(runs: number, first: number, second: number): RunsTest {
  assertCount('first', first, { min: 0 });
  assertCount('second', second, { min: 0 });
  const total = first + second;
  if (first < 1 || second < 1) {
    throw new DomainError('stats.undefined_statistic', 'only one kind is present', { first, second });
  }
  assertCount('runs', runs, { min: 1, max: total });

  const product = 2 * first * second;
  const mean = product / total + 1;
  const variance = (product * (product - total)) / (total ** 2 * (total - 1));
  // One of each: two runs for certain.
  const z = variance === 0 ? 0 : (runs - mean) / Math.sqrt(variance);

  const probabilities = runsDistribution(first, second);
  const sumWhere = (wanted: (count: number) => boolean): number =>
    Math.min(
      1,
      probabilities.reduce((sum, probability, count) => (wanted(count) ? sum + probability : sum), 0),
    );
  const distance = Math.abs(runs - mean) - SAME_DISTANCE;
  return {
    runs,
    mean,
    variance,
    z,
    normalPValue: Math.min(1, 2 * normalCdf(-Math.abs(z))),
    exact: {
      fewer: sumWhere((count) => count <= runs),
      more: sumWhere((count) => count >= runs),
      twoSided: sumWhere((count) => Math.abs(count - mean) >= distance),
    },
  };
}

/** Probability of each number of runs, from 0 up: ways to cut both kinds into that many stretches. */
function runsDistribution(first: number, second: number): number[] {
  const orders = logChoose(first + second, first);
  // Ways to cut one kind into stretches, of all orders; 0 where there are not enough to cut.
  const ways = (ofFirst: number, ofSecond: number): number =>
    ofFirst < 1 || ofSecond < 1 || ofFirst > first || ofSecond > second
      ? 0
      : Math.exp(logChoose(first - 1, ofFirst - 1) + logChoose(second - 1, ofSecond - 1) - orders);
  return Array.from({ length: first + second + 1 }, (_, runs) => {
    const half = Math.floor(runs / 2);
    return runs % 2 === 0 ? 2 * ways(half, half) : ways(half + 1, half) + ways(half, half + 1);
  });
}
