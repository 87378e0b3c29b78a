import { DomainError } from '../domain-error.js';
import { compensatedSum } from './compensated-sum.js';
import { chiSquareUpperTail } from './distributions.js';
import { elementAt } from './element-at.js';
import { assertFinite, assertLength, assertSameLength } from './guards.js';
import { assertProportion, type Proportion } from './proportion.js';

export interface CochranArmitageResult {
  /** Signed: above 0 the share rises with the score. */
  readonly z: number;
  /** z², chi-square with one degree of freedom, scaled by N and not N - 1. */
  readonly statistic: number;
  /** Two-sided. */
  readonly pValue: number;
}

/**
 * Does a share rise or fall along ordered groups (say: events in time)? Takes plays as independent inside a
 * group: where they are not, the p-value is too small.
 *
 * @param groups - successes of trials, at least two groups with trials ≥ 1, in the order of scores
 * @param scores - one number per group, not all the same (dates, event numbers); spacing matters, scale does not
 * @throws DomainError `stats.invalid_count`, `stats.invalid_number`, `stats.invalid_shape`;
 *         `stats.undefined_statistic` where all trials agree or all scores do
 * @see Armitage (1955), Biometrics 11, 375–386; Cochran (1954), Biometrics 10, 417–451
 */
export function cochranArmitageTrend(groups: readonly Proportion[], scores: readonly number[]): CochranArmitageResult {
  assertLength('groups', groups, { min: 2 });
  assertSameLength('scores', scores, groups.length);
  for (const group of groups) assertProportion('groups', group);
  for (const score of scores) assertFinite('scores', score);

  const trials = compensatedSum(groups.map((group) => group.trials));
  const share = compensatedSum(groups.map((group) => group.successes)) / trials;
  const meanScore = compensatedSum(groups.map((group, index) => group.trials * elementAt(scores, index))) / trials;
  const offsets = scores.map((score) => score - meanScore);
  const slope = compensatedSum(
    groups.map((group, index) => (group.successes - group.trials * share) * elementAt(offsets, index)),
  );
  const spread = compensatedSum(groups.map((group, index) => group.trials * elementAt(offsets, index) ** 2));
  const variance = share * (1 - share) * spread;
  if (variance === 0 || new Set(scores).size === 1) {
    throw new DomainError('stats.undefined_statistic', 'all trials or all scores agree', { share });
  }

  const z = slope / Math.sqrt(variance);
  return { z, statistic: z ** 2, pValue: chiSquareUpperTail(z ** 2, 1) };
}
