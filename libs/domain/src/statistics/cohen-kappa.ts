import { DomainError } from '../domain-error.js';
import { compensatedSum } from './compensated-sum.js';
import { normalQuantile } from './distributions.js';
import { elementAt } from './element-at.js';
import { assertCountTable, assertLength, assertNonNegative, assertOpenUnit, assertSameLength } from './guards.js';
import type { Interval } from './interval.js';

/**
 * How much a disagreement matters: all alike (`nominal`), by distance along ordered categories (`linear`),
 * by its square (`quadratic`), or a table of one's own, 0 on the diagonal.
 */
export type DisagreementWeights = 'nominal' | 'linear' | 'quadratic' | readonly (readonly number[])[];

export interface CohenKappa {
  /** 1 for full agreement, 0 for what chance gives, below 0 for less. */
  readonly kappa: number;
  /** For intervals. */
  readonly standardError: number;
  readonly interval: Interval;
  /** Under chance agreement: for testing kappa against 0 and for nothing else. */
  readonly nullStandardError: number;
  /** Weighted agreement, in [0, 1], seen and expected from both raters' own habits. */
  readonly observedAgreement: number;
  readonly expectedAgreement: number;
}

/**
 * Agreement of two raters beyond chance, with large-sample standard errors.
 *
 * @param table      - counts, first rater's category × second's, the same categories in the same order, at least 2 × 2
 * @param weights    - of disagreements; the caller says which, as programs differ in what they take for granted
 * @param confidence - probability in (0, 1) of the interval
 * @throws DomainError `stats.invalid_count`, `stats.invalid_shape`, `stats.invalid_number`,
 *         `stats.invalid_probability`; `stats.undefined_statistic` where chance alone gives full agreement (one
 *         category only) or there is no rating
 * @see Cohen (1960), Educ. Psychol. Meas. 20, 37–46; Cohen (1968), Psychol. Bull. 70, 213–220; Fleiss, Cohen & Everitt (1969), Psychol. Bull. 72, 323–327
 */
export function cohenKappa(
  table: readonly (readonly number[])[],
  weights: DisagreementWeights,
  confidence: number,
): CohenKappa {
  assertLength('table', table, { min: 2 });
  assertCountTable('table', table, { columns: table.length });
  assertOpenUnit('confidence', confidence);
  const total = compensatedSum(table.flat());
  if (total === 0) throw new DomainError('stats.undefined_statistic', 'nothing was rated');

  const shares = table.map((row) => row.map((count) => count / total));
  const first = shares.map(compensatedSum);
  const second = shares.map((_, column) => compensatedSum(shares.map((row) => elementAt(row, column))));
  const agreement = agreementWeights(weights, table.length);

  const cells = shares.flatMap((row, rowIndex) =>
    row.map((share, columnIndex) => ({
      share,
      chance: elementAt(first, rowIndex) * elementAt(second, columnIndex),
      weight: elementAt(elementAt(agreement, rowIndex), columnIndex),
      // What the two raters would agree on average when one keeps this category and the other guesses.
      habit:
        compensatedSum(second.map((other, column) => other * elementAt(elementAt(agreement, rowIndex), column))) +
        compensatedSum(first.map((other, row) => other * elementAt(elementAt(agreement, row), columnIndex))),
    })),
  );
  const observedAgreement = compensatedSum(cells.map(({ share, weight }) => share * weight));
  const expectedAgreement = compensatedSum(cells.map(({ chance, weight }) => chance * weight));
  const beyond = 1 - expectedAgreement;
  // A single category in use leaves 1 - 1, which rounding may keep off 0.
  if (beyond < 1e-12)
    throw new DomainError('stats.undefined_statistic', 'chance alone gives full agreement', { total });

  const kappa = (observedAgreement - expectedAgreement) / beyond;
  const spread = compensatedSum(cells.map(({ share, weight, habit }) => share * (weight - habit * (1 - kappa)) ** 2));
  const nullSpread = compensatedSum(cells.map(({ chance, weight, habit }) => chance * (weight - habit) ** 2));
  const scale = Math.sqrt(total) * beyond;
  // Full agreement has no spread; rounding may leave it below 0.
  const standardError = Math.sqrt(Math.max(0, spread - (kappa - expectedAgreement * (1 - kappa)) ** 2)) / scale;
  const reach = normalQuantile((1 + confidence) / 2) * standardError;
  return {
    kappa,
    standardError,
    interval: { lower: Math.max(-1, kappa - reach), upper: Math.min(1, kappa + reach) },
    nullStandardError: Math.sqrt(Math.max(0, nullSpread - expectedAgreement ** 2)) / scale,
    observedAgreement,
    expectedAgreement,
  };
}

function agreementWeights(weights: DisagreementWeights, size: number): number[][] {
  const disagreement = typeof weights === 'string' ? namedWeights(weights, size) : weights;
  assertSameLength('weights', disagreement, size);
  for (const row of disagreement) {
    assertSameLength('weights', row, size);
    for (const weight of row) assertNonNegative('weights', weight);
  }
  const largest = Math.max(...disagreement.flat());
  if (largest === 0 || disagreement.some((row, index) => elementAt(row, index) !== 0)) {
    throw new DomainError('stats.invalid_number', 'weights must be 0 on the diagonal and above 0 somewhere', {
      weights,
    });
  }
  return disagreement.map((row) => row.map((weight) => 1 - weight / largest));
}

function namedWeights(name: 'nominal' | 'linear' | 'quadratic', size: number): number[][] {
  const places = Array.from({ length: size }, (_, index) => index);
  const power = { nominal: 0, linear: 1, quadratic: 2 }[name];
  return places.map((row) => places.map((column) => (row === column ? 0 : Math.abs(row - column) ** power)));
}
