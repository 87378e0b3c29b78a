import { normalCdf } from '../../statistics/distributions.js';

/** One stratum of pairs: how many begin with each value, end with each value, and end with the one they began with. */
export interface MatchStratum {
  /** Pairs, one count a value; both arrays have the same values in the same order and add up to the same number. */
  readonly first: readonly number[];
  readonly second: readonly number[];
  readonly matches: number;
}

export interface MatchTest {
  readonly matches: number;
  /** Matches that chance alone would give, the values on either side of every stratum held. */
  readonly expected: number;
  readonly variance: number;
  /** With continuity correction; above 0 where there are more matches than chance gives. */
  readonly z: number;
  /** Two-sided, from the normal approximation. */
  readonly pValue: number;
  /** Pairs in strata where chance had a choice. */
  readonly informative: number;
}

/**
 * Do pairs repeat a value more or less often than chance would pair them inside the same stratum? Within each stratum
 * every pairing of first and second values is equally likely under the null hypothesis; the number of matches then has
 * the mean and variance of a combinatorial sum, and these add up over strata. A stratum with one pair says nothing.
 *
 * @returns null where no stratum leaves chance a choice
 * @see Hoeffding (1951), Ann. Math. Stat. 22, 558–566
 */
export function matchTest(strata: readonly MatchStratum[]): MatchTest | null {
  let [matches, expected, variance, informative] = [0, 0, 0, 0];
  for (const stratum of strata) {
    const moments = momentsOf(stratum);
    matches += stratum.matches;
    expected += moments.mean;
    variance += moments.variance;
    if (moments.variance > ROUNDING) informative += moments.pairs;
  }
  if (informative === 0) return null;
  const excess = matches - expected;
  const z = (Math.sign(excess) * Math.max(0, Math.abs(excess) - 0.5)) / Math.sqrt(variance);
  return { matches, expected, variance, z, pValue: Math.min(1, 2 * normalCdf(-Math.abs(z))), informative };
}

// A variance that is 0 by arithmetic comes out some 1e-16 beside it.
const ROUNDING = 1e-9;

function momentsOf({ first, second }: MatchStratum): { pairs: number; mean: number; variance: number } {
  const pairs = first.reduce((sum, count) => sum + count, 0);
  if (pairs < 2)
    return { pairs, mean: first.reduce((sum, count, value) => sum + count * (second[value] ?? 0), 0), variance: 0 };
  // Sums over all cells of the pairs × pairs table of matches, of its squared row and column means, and of its mean.
  let [cells, rows, columns] = [0, 0, 0];
  first.forEach((begin, value) => {
    const end = second[value] ?? 0;
    cells += begin * end;
    rows += (begin * end ** 2) / pairs;
    columns += (end * begin ** 2) / pairs;
  });
  const spread = cells - rows - columns + (cells / pairs) ** 2;
  return { pairs, mean: cells / pairs, variance: Math.max(0, spread / (pairs - 1)) };
}
