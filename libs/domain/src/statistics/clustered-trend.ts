import { cochranArmitageTrend, type CochranArmitageResult } from './cochran-armitage-trend.js';
import { compensatedSum } from './compensated-sum.js';
import { elementAt } from './element-at.js';
import { assertCount, assertFinite, assertLength } from './guards.js';
import { assertProportion, type Proportion } from './proportion.js';
import type { RandomSource } from './seeded-random.js';

/** What one cluster (a player) did in one group (an event). */
export interface TrendCell {
  readonly cluster: number;
  /** Of the group; finite. */
  readonly score: number;
  readonly successes: number;
  readonly trials: number;
}

export interface ClusteredTrend {
  /** As if every trial stood alone: z too large and p too small wherever a cluster keeps to its ways. */
  readonly armitage: CochranArmitageResult;
  /** With the variance between clusters. */
  readonly z: number;
  /** Two-sided, by turning the signs of whole clusters. */
  readonly pValue: number;
  /** Change of the share for one step of the score, with its standard error between clusters. */
  readonly slope: number;
  readonly standardError: number;
}

/**
 * How alike two trials of one cluster are taken to be, and how much more so two of one group of it. What is taken here
 * decides how much a heavy user weighs and so what can be found, never how often something false is. Common practice,
 * no source: players of the demo league differ by about as much.
 */
const ALIKE = { inCluster: 0.05, inGroup: 0.02 };
/** A p-value is told to a tenth of itself once so many turns have reached the statistic. */
const HITS = 100;
// Two orders of the same sum differ by rounding only.
const SAME = 1e-9;

/**
 * The Cochran-Armitage trend where trials come in clusters that differ. Its numerator becomes a sum over clusters, each
 * with its trials weighed as alike; its variance is taken between clusters, and its p-value from turning the sign of
 * each cluster's part at random, which holds for few clusters too. However much one cluster did, it is one of them:
 * alone it never makes a trend. Where every trial is a cluster of its own this is the Cochran-Armitage trend.
 *
 * @param cells  - one a cluster and group, any order; trials may be 0
 * @param turns  - integer ≥ 1, at most; stops earlier once the p-value is known to be large
 * @param random - uniform source
 * @throws DomainError `stats.invalid_count`, `stats.invalid_number`, `stats.invalid_shape`;
 *         `stats.undefined_statistic` where all trials agree or all scores do
 * @see Armitage (1955), Biometrics 11, 375–386; Liang & Zeger (1986), Biometrika 73, 13–22 (working correlation,
 *      variance between clusters); Cameron, Gelbach & Miller (2008), Rev. Econ. Stat. 90, 414–427 (signs of clusters);
 *      Besag & Clifford (1991), Biometrika 78, 301–304 (stopping)
 */
export function clusteredTrend(cells: readonly TrendCell[], turns: number, random: RandomSource): ClusteredTrend {
  assertCount('turns', turns, { min: 1 });
  for (const { score, successes, trials } of cells) {
    assertFinite('score', score);
    assertProportion('cells', { successes, trials }, 0);
  }
  const seen = cells.filter(({ trials }) => trials > 0);
  assertLength('cells', seen, { min: 2 });
  const armitage = armitageOf(seen);

  const clusters = weighed(seen);
  const weight = compensatedSum(clusters.map((cluster) => cluster.weight));
  const share = compensatedSum(clusters.map((cluster) => cluster.successes)) / weight;
  const meanScore = compensatedSum(clusters.map((cluster) => cluster.scores)) / weight;
  const parts = clusters.map(
    ({ products, scores, successes, weight: own }) =>
      products - share * scores - meanScore * successes + share * meanScore * own,
  );
  const spread = compensatedSum(
    clusters.map(({ squares, scores, weight: own }) => squares - 2 * meanScore * scores + meanScore ** 2 * own),
  );
  const sum = compensatedSum(parts);
  const deviation = Math.sqrt(compensatedSum(parts.map((part) => part ** 2)));
  return {
    armitage,
    z: deviation === 0 ? 0 : sum / deviation,
    pValue: signTurns(parts, Math.abs(sum), turns, random),
    slope: sum / spread,
    standardError: deviation / spread,
  };
}

function armitageOf(cells: readonly TrendCell[]): CochranArmitageResult {
  const groups = new Map<number, Proportion>();
  for (const { score, successes, trials } of cells) {
    const sum = groups.get(score) ?? { successes: 0, trials: 0 };
    groups.set(score, { successes: sum.successes + successes, trials: sum.trials + trials });
  }
  return cochranArmitageTrend([...groups.values()], [...groups.keys()]);
}

/** Sums over one cluster under the inverse of its working correlation, uncentred. */
interface WeighedCluster {
  readonly weight: number;
  readonly successes: number;
  readonly scores: number;
  readonly products: number;
  readonly squares: number;
}

function weighed(cells: readonly TrendCell[]): WeighedCluster[] {
  const clusters = new Map<number, TrendCell[]>();
  for (const cell of cells) {
    const own = clusters.get(cell.cluster) ?? [];
    own.push(cell);
    clusters.set(cell.cluster, own);
  }
  return [...clusters.values()].map((own) => {
    const weights = own.map(({ trials }) => trials / (1 + (trials - 1) * ALIKE.inGroup));
    const sumOf = (value: (cell: TrendCell) => number): number =>
      compensatedSum(own.map((cell, index) => elementAt(weights, index) * value(cell)));
    const shareOf = ({ successes, trials }: TrendCell): number => successes / trials;
    const [all, shares, scores] = [sumOf(() => 1), sumOf(shareOf), sumOf(({ score }) => score)];
    // Inverse of a diagonal plus the same for all: Sherman and Morrison.
    const common = ALIKE.inCluster / (1 + ALIKE.inCluster * all);
    return {
      weight: all - common * all ** 2,
      successes: shares - common * all * shares,
      scores: scores - common * all * scores,
      products: sumOf((cell) => cell.score * shareOf(cell)) - common * scores * shares,
      squares: sumOf(({ score }) => score ** 2) - common * scores ** 2,
    };
  });
}

function signTurns(parts: readonly number[], observed: number, turns: number, random: RandomSource): number {
  const enough = observed * (1 - SAME);
  let hits = 0;
  for (let turn = 1; turn <= turns; turn += 1) {
    let sum = 0;
    let bits = 0;
    for (let part = 0; part < parts.length; part += 1) {
      if (part % BITS === 0) bits = Math.floor(random() * 2 ** BITS);
      sum += (bits & 1) === 1 ? elementAt(parts, part) : -elementAt(parts, part);
      bits >>>= 1;
    }
    if (Math.abs(sum) >= enough) hits += 1;
    if (hits === HITS) return hits / turn;
  }
  return (hits + 1) / (turns + 1);
}

/** Signs from one random number. */
const BITS = 30;
