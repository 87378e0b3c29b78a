import { DomainError } from '../domain-error.js';
import { compensatedSum } from './compensated-sum.js';
import {
  dirichletMultinomialLikelihood,
  type DirichletMultinomialLikelihood,
} from './dirichlet-multinomial-likelihood.js';
import { elementAt } from './element-at.js';
import { fitConcentration, WEAK_CONCENTRATION, type ConcentrationFit } from './fit-concentration.js';
import { assertCountTable } from './guards.js';

export interface DirichletMultinomialFit extends ConcentrationFit {
  /** Share of each category in the field: each > 0, adding up to 1. */
  readonly mean: readonly number[];
}

type CountTable = readonly (readonly number[])[];

const MAXIMUM_ITERATIONS = 2000;
const MAXIMUM_HALVINGS = 20;
const MAXIMUM_DOUBLINGS = 20;
// Slope of the log-likelihood in the logarithm of each parameter, per play. The slope is tested and not
// the step: the plain fixed point takes thousands of ever smaller steps.
const SLOPE_TOLERANCE = 1e-12;
// Half a play of the whole, as Jeffreys's prior gives it.
const PLAYS_OF_AN_UNSEEN_CATEGORY = 0.5;

/**
 * Maximum likelihood of the mean and the concentration of a Dirichlet-multinomial over groups:
 * the field's shares, and how alike its groups are. Newton steps, halved until the likelihood rises,
 * with Minka's fixed point, stretched while it rises, where they do not; at most 2000 iterations.
 *
 * Where the maximum lies at an edge, the limits of {@link fitConcentration} hold, and the mean is the
 * pooled share (`pooled`, `unidentified`) or the average of the groups' own shares (`pure`). A
 * category that nobody used has no maximum above 0; it receives half a play of the whole, so that the
 * first player who uses it can be described.
 *
 * @param counts - groups × categories, integers ≥ 0, at least two categories; groups may be empty
 * @returns mean, concentration, the evidence behind it, and the log-likelihood of the categories seen
 * @throws DomainError `stats.invalid_count`, `stats.invalid_shape`; `stats.undefined_statistic` when
 *         the groups hold no play at all; `stats.no_convergence`
 * @see Minka (2000, rev. 2012), Estimating a Dirichlet distribution, eq. (53) to (60); Mosimann (1962), Biometrika 49, 65–82
 */
export function fitDirichletMultinomial(counts: CountTable): DirichletMultinomialFit {
  assertCountTable('counts', counts, { minColumns: 2 });
  const totals = columnTotals(counts);
  const plays = compensatedSum(totals);
  if (plays === 0) throw new DomainError('stats.undefined_statistic', 'the groups hold no play');

  const seen = totals.flatMap((total, category) => (total > 0 ? [category] : []));
  const fit = fitSeen(counts.map((row) => seen.map((category) => elementAt(row, category))));

  const unseen = totals.length - seen.length;
  const unseenShare = PLAYS_OF_AN_UNSEEN_CATEGORY / (plays + PLAYS_OF_AN_UNSEEN_CATEGORY * unseen);
  const seenShares = new Map(
    seen.map((category, index) => [category, elementAt(fit.mean, index) * (1 - unseenShare * unseen)]),
  );
  return { ...fit, mean: totals.map((_, category) => seenShares.get(category) ?? unseenShare) };
}

function fitSeen(counts: CountTable): DirichletMultinomialFit {
  const totals = columnTotals(counts);
  const pooled = totals.map((total) => total / compensatedSum(totals));
  if (pooled.length === 1) {
    return { mean: pooled, concentration: WEAK_CONCENTRATION, evidence: 'unidentified', logLikelihood: 0 };
  }

  const start = fitConcentration(counts, pooled);
  if (start.evidence === 'pure') {
    const mean = averageShares(counts);
    return { ...fitConcentration(counts, mean), mean };
  }
  if (start.evidence !== 'inside') return { ...start, mean: pooled };

  const likelihood = dirichletMultinomialLikelihood(counts);
  const alpha = climb(
    likelihood,
    pooled.map((share) => share * start.concentration),
    compensatedSum(totals),
  );
  const concentration = compensatedSum(alpha);
  const mean = alpha.map((value) => value / concentration);
  return { mean, concentration, evidence: 'inside', logLikelihood: likelihood.at(alpha) };
}

function climb(likelihood: DirichletMultinomialLikelihood, start: readonly number[], plays: number): readonly number[] {
  let alpha = start;
  for (let iteration = 0; iteration < MAXIMUM_ITERATIONS; iteration += 1) {
    if (steepest(likelihood, alpha) <= SLOPE_TOLERANCE * plays) return alpha;

    const next = higherPoint(likelihood, alpha, plays) ?? flatterPoint(likelihood, alpha);
    // No rule helps any more: what is left of the slope is rounding.
    if (next === null) return alpha;
    alpha = next;
  }
  throw new DomainError('stats.no_convergence', `no maximum within ${MAXIMUM_ITERATIONS} iterations`, { alpha });
}

/** Largest slope of the log-likelihood in the logarithm of a parameter. */
function steepest(likelihood: DirichletMultinomialLikelihood, alpha: readonly number[]): number {
  return Math.max(...likelihood.slopes(alpha).map((slope, category) => Math.abs(slope * elementAt(alpha, category))));
}

function higherPoint(
  likelihood: DirichletMultinomialLikelihood,
  alpha: readonly number[],
  plays: number,
): readonly number[] | null {
  const height = likelihood.at(alpha);
  // The start beats every pooled answer, so a climb that never falls has no business near the cap.
  const isHigher = (point: readonly number[]): boolean =>
    point.every((value) => value > 0) && compensatedSum(point) < plays && likelihood.at(point) > height;

  const step = likelihood.newtonStep(alpha);
  for (let halving = 0; step !== null && halving < MAXIMUM_HALVINGS; halving += 1) {
    const point = alpha.map((value, category) => value + elementAt(step, category) / 2 ** halving);
    if (isHigher(point)) return point;
  }
  let best = likelihood.fixedPoint(alpha);
  if (!isHigher(best)) return null;
  // Where a category is all but unused the fixed point creeps along a ridge: go on its way while it rises.
  const ratios = best.map((value, category) => value / elementAt(alpha, category));
  for (let doubling = 1; doubling <= MAXIMUM_DOUBLINGS; doubling += 1) {
    const farther = alpha.map((value, category) => value * elementAt(ratios, category) ** (2 ** doubling));
    if (!isHigher(farther) || likelihood.at(farther) <= likelihood.at(best)) break;
    best = farther;
  }
  return best;
}

/** At the top the likelihood is flat to the last digit long before its slope is 0; a Newton step still sees the slope. */
function flatterPoint(likelihood: DirichletMultinomialLikelihood, alpha: readonly number[]): readonly number[] | null {
  const step = likelihood.newtonStep(alpha);
  if (step === null) return null;
  const point = alpha.map((value, category) => value + elementAt(step, category));
  return point.every((value) => value > 0) && steepest(likelihood, point) < steepest(likelihood, alpha) / 2
    ? point
    : null;
}

function averageShares(counts: CountTable): number[] {
  const shares = counts.flatMap((row) => {
    const size = compensatedSum(row);
    return size > 0 ? [row.map((count) => count / size)] : [];
  });
  return columnTotals(shares).map((sum) => sum / shares.length);
}

function columnTotals(table: CountTable): number[] {
  return elementAt(table, 0).map((_, column) => compensatedSum(table.map((row) => elementAt(row, column))));
}
