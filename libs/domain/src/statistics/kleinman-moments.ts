import { DomainError } from '../domain-error.js';
import { compensatedSum } from './compensated-sum.js';
import { assertLength } from './guards.js';
import { assertProportion, type Proportion } from './proportion.js';

export interface KleinmanMoments {
  /** Weighted mean share, in [0, 1]. */
  readonly mean: number;
  /** Estimated correlation of two trials of one group; 0 or below: no variation beyond chance. */
  readonly overdispersion: number;
  /** Prior weight in trials, > 0, or null where nothing says that groups differ: pool completely. */
  readonly concentration: number | null;
}

/**
 * Mean and over-dispersion of shares over groups of unequal size, by moments that take the binomial noise
 * out. No iteration: a start for likelihood and a check on it.
 *
 * @param groups  - successes of trials, at least two groups, trials ≥ 1 and more than 1 somewhere
 * @param weights - `trials`: each group by its size; `equal`: each alike
 * @throws DomainError `stats.invalid_count`, `stats.invalid_shape`; `stats.undefined_statistic` when all
 *         trials agree or every group has a single one
 * @see Kleinman (1973), J. Am. Stat. Assoc. 68, 46–54
 */
export function kleinmanMoments(groups: readonly Proportion[], weights: 'trials' | 'equal'): KleinmanMoments {
  assertLength('groups', groups, { min: 2 });
  for (const group of groups) assertProportion('groups', group);

  const parts = groups.map(({ successes, trials }) => ({
    share: successes / trials,
    trials,
    weight: weights === 'trials' ? trials : 1,
  }));
  const totalWeight = compensatedSum(parts.map(({ weight }) => weight));
  const mean = compensatedSum(parts.map(({ weight, share }) => weight * share)) / totalWeight;
  const spread = compensatedSum(parts.map(({ weight, share }) => weight * (share - mean) ** 2));
  const noise = compensatedSum(parts.map(({ weight, trials }) => (weight / trials) * (1 - weight / totalWeight)));
  const full = compensatedSum(parts.map(({ weight }) => weight * (1 - weight / totalWeight)));
  const variance = mean * (1 - mean);
  if (variance === 0 || groups.every(({ trials }) => trials === 1)) {
    throw new DomainError('stats.undefined_statistic', 'all trials agree, or every group has a single trial', { mean });
  }

  const overdispersion = (spread - variance * noise) / (variance * (full - noise));
  return { mean, overdispersion, concentration: overdispersion > 0 ? 1 / overdispersion - 1 : null };
}
