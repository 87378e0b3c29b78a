import { cochranArmitageTrend, type CochranArmitageResult } from './cochran-armitage-trend.js';
import { compensatedSum } from './compensated-sum.js';
import { elementAt } from './element-at.js';
import { assertCount, assertFinite, assertLength } from './guards.js';
import { assertProportion } from './proportion.js';
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
  /** Variance of the slope between clusters over that of independent trials; 1 and more where clusters keep to theirs. */
  readonly designEffect: number;
  /** The same z with the variance between clusters. */
  readonly z: number;
  /** Two-sided, by turning the signs of whole clusters. */
  readonly pValue: number;
  /** Change of the share for one step of the score, with its standard error between clusters. */
  readonly slope: number;
  readonly standardError: number;
}

/** A p-value is told to a tenth of itself once so many turns have reached the statistic. */
const HITS = 100;
// Two orders of the same sum differ by rounding only.
const SAME = 1e-9;

/**
 * The Cochran-Armitage trend where trials come in clusters that differ: its numerator is a sum over clusters, so its
 * variance is taken between them, and its p-value from turning the sign of each cluster's part at random, which holds
 * for few clusters too. However much one cluster did, it is one of them: alone it never makes a trend.
 *
 * @param cells  - one a cluster and group, any order; trials may be 0
 * @param turns  - integer ≥ 1, at most; stops earlier once the p-value is known to be large
 * @param random - uniform source
 * @throws DomainError `stats.invalid_count`, `stats.invalid_number`, `stats.invalid_shape`;
 *         `stats.undefined_statistic` where all trials agree or all scores do
 * @see Armitage (1955), Biometrics 11, 375–386; Cameron, Gelbach & Miller (2008), Rev. Econ. Stat. 90, 414–427 (wild
 *      cluster bootstrap, signs); Besag & Clifford (1991), Biometrika 78, 301–304 (stopping)
 */
export function clusteredTrend(cells: readonly TrendCell[], turns: number, random: RandomSource): ClusteredTrend {
  assertCount('turns', turns, { min: 1 });
  for (const { score, successes, trials } of cells) {
    assertFinite('score', score);
    assertCount('trials', trials, { min: 0 });
    if (trials > 0) assertProportion('cells', { successes, trials });
  }
  const seen = cells.filter(({ trials }) => trials > 0);
  assertLength('cells', seen, { min: 2 });
  const scores = [...new Set(seen.map(({ score }) => score))].sort((first, second) => first - second);
  const groups = scores.map((score) => totals(seen.filter((cell) => cell.score === score)));
  const armitage = cochranArmitageTrend(groups, scores);

  const { successes, trials } = totals(seen);
  const share = successes / trials;
  const meanScore = compensatedSum(seen.map((cell) => cell.trials * cell.score)) / trials;
  const spread = compensatedSum(seen.map((cell) => cell.trials * (cell.score - meanScore) ** 2));
  const parts = clusterParts(seen, share, meanScore);
  const sum = compensatedSum(parts);
  const between = compensatedSum(parts.map((part) => part ** 2));
  return {
    armitage,
    designEffect: between / (share * (1 - share) * spread),
    z: between === 0 ? 0 : sum / Math.sqrt(between),
    pValue: signTurns(parts, Math.abs(sum), turns, random),
    slope: sum / spread,
    standardError: Math.sqrt(between) / spread,
  };
}

function totals(cells: readonly TrendCell[]): { successes: number; trials: number } {
  return {
    successes: cells.reduce((sum, { successes }) => sum + successes, 0),
    trials: cells.reduce((sum, { trials }) => sum + trials, 0),
  };
}

/** What each cluster adds to the numerator; those that add nothing are left out. */
function clusterParts(cells: readonly TrendCell[], share: number, meanScore: number): number[] {
  const parts = new Map<number, number>();
  for (const { cluster, score, successes, trials } of cells) {
    parts.set(cluster, (parts.get(cluster) ?? 0) + (successes - trials * share) * (score - meanScore));
  }
  return [...parts.values()].filter((part) => part !== 0);
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
