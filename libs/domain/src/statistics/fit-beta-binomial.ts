import { compensatedSum } from './compensated-sum.js';
import { elementAt } from './element-at.js';
import type { ConcentrationEvidence } from './fit-concentration.js';
import { fitDirichletMultinomial } from './fit-dirichlet-multinomial.js';
import { logChoose } from './log-choose.js';
import { assertProportion, type Proportion } from './proportion.js';

export interface BetaBinomialFit {
  /** Mean share over groups, in (0, 1). */
  readonly mean: number;
  /** Prior weight in trials: alpha + beta. */
  readonly concentration: number;
  readonly alpha: number;
  readonly beta: number;
  /** Correlation of two trials of one group, 1 / (1 + concentration). */
  readonly overdispersion: number;
  readonly evidence: ConcentrationEvidence;
  /** Natural logarithm, with binomial coefficients. */
  readonly logLikelihood: number;
}

/**
 * Maximum likelihood of a Beta-binomial over groups: the Dirichlet-multinomial fit of two categories, with
 * its limits where groups are few or vary no more than chance.
 *
 * @param groups - successes of trials; a group may be empty
 * @throws DomainError `stats.invalid_count`, `stats.invalid_shape`; `stats.undefined_statistic` when all
 *         groups are empty; `stats.no_convergence`
 * @see Griffiths (1973), Biometrics 29, 637–648
 */
export function fitBetaBinomial(groups: readonly Proportion[]): BetaBinomialFit {
  for (const group of groups) assertProportion('groups', group, 0);
  const fit = fitDirichletMultinomial(groups.map(({ successes, trials }) => [successes, trials - successes]));
  const mean = elementAt(fit.mean, 0);
  const coefficients = groups.map(({ successes, trials }) => logChoose(trials, successes));
  return {
    mean,
    concentration: fit.concentration,
    alpha: mean * fit.concentration,
    beta: (1 - mean) * fit.concentration,
    overdispersion: 1 / (1 + fit.concentration),
    evidence: fit.evidence,
    logLikelihood: compensatedSum([fit.logLikelihood, ...coefficients]),
  };
}
