import { DomainError } from '../domain-error.js';
import { bracketedRoot } from './bracketed-root.js';
import { countTails, logRisingSlope, logRisingSum } from './count-tails.js';
import { elementAt } from './element-at.js';
import { assertCountTable, assertOpenShares } from './guards.js';

/**
 * What the data could say of the concentration: `inside`, a maximum was found; `pooled`, groups vary
 * no more than chance and the cap holds; `pure`, each group keeps to one category and the floor holds;
 * `unidentified`, fewer than two groups with two plays or one category only, and a weak prior stands in.
 */
export type ConcentrationEvidence = 'inside' | 'pooled' | 'pure' | 'unidentified';

export interface ConcentrationFit {
  /** Prior weight in plays: the sum of the Dirichlet's parameters. */
  readonly concentration: number;
  readonly evidence: ConcentrationEvidence;
  /** Natural logarithm of the likelihood at the fit, without multinomial coefficients. */
  readonly logLikelihood: number;
}

export const SMALLEST_CONCENTRATION = 0.01;

/** Perks's prior: one play's worth of knowledge, whatever the number of categories. Perks (1947), J. Inst. Actuaries 73, 285–334. */
export const WEAK_CONCENTRATION = 1;

// Of the logarithm: a relative precision, as the concentration spans six orders of magnitude.
const LOG_TOLERANCE = 1e-11;

/**
 * Maximum likelihood of the Dirichlet-multinomial's concentration when its mean is given. With the
 * mean fixed the likelihood has one maximum at most, so a bracketed root of its slope finds it.
 * Two limits keep the answer usable: at least 0.01, and at most the number of plays the groups hold
 * together, since a prior cannot know more than what it was learned from.
 *
 * @param counts    - groups × categories, integers ≥ 0, at least two categories; groups may be empty
 * @param fixedMean - share of each category, each > 0, adding up to 1
 * @returns concentration with the kind of evidence behind it and the log-likelihood
 * @throws DomainError `stats.invalid_count`, `stats.invalid_probability`, `stats.invalid_shape`;
 *         `stats.undefined_statistic` when the groups hold no play at all
 * @see Levin & Reeds (1977), Ann. Stat. 5, 79–87 (one maximum); Mosimann (1962), Biometrika 49, 65–82
 */
export function fitConcentration(
  counts: readonly (readonly number[])[],
  fixedMean: readonly number[],
): ConcentrationFit {
  assertOpenShares('fixedMean', fixedMean);
  assertCountTable('counts', counts, { columns: fixedMean.length, minColumns: 2 });
  return fitWeightedConcentration(
    counts,
    counts.map(() => 1),
    fixedMean,
  );
}

/**
 * The same fit with groups that count by weight, as a mixture's do.
 *
 * @param counts    - groups × categories, as above
 * @param weights   - one per group, in [0, 1]
 * @param fixedMean - share of each category, as above
 */
export function fitWeightedConcentration(
  counts: readonly (readonly number[])[],
  weights: readonly number[],
  fixedMean: readonly number[],
): ConcentrationFit {
  const sizes = counts.map((row) => row.reduce((sum, count) => sum + count, 0));
  const plays = sizes.reduce((sum, size) => sum + size, 0);
  if (plays === 0) throw new DomainError('stats.undefined_statistic', 'the groups hold no play', {});

  const sizeTails = countTails(sizes, weights);
  const categoryTails = fixedMean.map((_, category) =>
    countTails(
      counts.map((row) => elementAt(row, category)),
      weights,
    ),
  );
  const logLikelihood = (concentration: number): number =>
    categoryTails.reduce(
      (sum, tails, category) => sum + logRisingSum(tails, concentration * elementAt(fixedMean, category)),
      -logRisingSum(sizeTails, concentration),
    );
  // Slope in the logarithm of the concentration.
  const slope = (log: number): number => {
    const concentration = Math.exp(log);
    const rise = categoryTails.reduce((sum, tails, category) => {
      const mean = elementAt(fixedMean, category);
      return sum + mean * logRisingSlope(tails, concentration * mean);
    }, -logRisingSlope(sizeTails, concentration));
    return concentration * rise;
  };
  const fitAt = (concentration: number, evidence: ConcentrationEvidence): ConcentrationFit => ({
    concentration,
    evidence,
    logLikelihood: logLikelihood(concentration),
  });

  const categoriesSeen = categoryTails.filter((tails) => tails.length > 0).length;
  if (sizes.filter((size) => size >= 2).length < 2 || categoriesSeen < 2) {
    return fitAt(WEAK_CONCENTRATION, 'unidentified');
  }
  const [floor, cap] = [Math.log(SMALLEST_CONCENTRATION), Math.log(plays)];
  if (slope(cap) >= 0) return fitAt(plays, 'pooled');
  if (slope(floor) <= 0) return fitAt(SMALLEST_CONCENTRATION, 'pure');
  return fitAt(Math.exp(bracketedRoot(slope, floor, cap, LOG_TOLERANCE)), 'inside');
}
