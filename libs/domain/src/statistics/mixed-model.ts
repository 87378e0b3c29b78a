import { DomainError } from '../domain-error.js';
import { assertFinite, assertLength, assertNonNegative } from './guards.js';
import type { MixedModelInput } from './mixed-model-input.js';
import { MixedModelEquations, type SolvedEquations } from './mixed-model-equations.js';

/** What was fitted: y = mean + the effect of each factor + residual, all normal and independent. */
export interface MixedModel {
  /** One a factor, ≥ 0, in the square of the observations' unit. */
  readonly variances: readonly number[];
  readonly residualVariance: number;
  /** -2 times the restricted log-likelihood, constants included. */
  readonly criterion: number;
  readonly iterations: number;
  /** Effects, their joint posterior, and the place of each factor's levels. */
  readonly solved: SolvedEquations;
}

const MOST_ITERATIONS = 100;
/** Of the criterion, and of each variance against the residual one. */
const TOLERANCE = 1e-9;
/** A variance is taken for none below this part of the residual one: a ratio that moves no digit of any effect. */
const SMALLEST_RATIO = 1e-10;
const MOST_HALVINGS = 12;
const MOST_FALL = 8;
const NEARLY_NONE = 1e-4;

/**
 * Linear mixed model with crossed or nested random factors: variances by restricted maximum likelihood (average
 * information steps, halved until the likelihood rises, with an EM step where that fails), effects as best linear
 * unbiased predictions. Works on sums by record, so that a million plays are as quick as their cells. The factor with
 * the most levels is eliminated by hand; the cost is that of a Cholesky factor over the levels of the others.
 *
 * Posteriors take the variances as known.
 *
 * @param input - at least one record and one factor
 * @param start - variances to start from: one a factor, then the residual one; all above 0
 * @throws DomainError `stats.invalid_shape`, `stats.invalid_number`, `stats.no_convergence`
 * @see Patterson & Thompson (1971), Biometrika 58, 545–554 (REML); Gilmour, Thompson & Cullis (1995), Biometrics 51,
 *   1440–1450 (average information); Henderson (1975), Biometrics 31, 423–447 (prediction)
 */
export function fitMixedModel(input: MixedModelInput, start?: readonly number[]): MixedModel {
  assertInput(input);
  const equations = new MixedModelEquations(input);
  let at = equations.evaluate(start ?? plainStart(input));
  for (let iteration = 1; iteration <= MOST_ITERATIONS; iteration += 1) {
    const next = stepFrom(equations, at);
    const moved = next.variances.some((variance, place) => {
      const before = at.variances[place] ?? 0;
      return Math.abs(variance - before) > TOLERANCE * Math.max(variance, before, next.variances.at(-1) ?? 0);
    });
    const gained = at.criterion - next.criterion;
    at = next;
    if (!moved || Math.abs(gained) < TOLERANCE) return fitted(at, iteration);
  }
  throw new DomainError('stats.no_convergence', `variances have not settled in ${MOST_ITERATIONS} steps`, {});
}

/** Effects under given variances, for instance those of a larger archive; one a factor, then the residual one. */
export function solveMixedModel(input: MixedModelInput, variances: readonly number[]): MixedModel {
  assertInput(input);
  return fitted(new MixedModelEquations(input).evaluate(variances), 0);
}

function fitted(solved: SolvedEquations, iterations: number): MixedModel {
  const residualVariance = solved.variances.at(-1) ?? 0;
  const smallest = 2 * SMALLEST_RATIO * residualVariance;
  return {
    variances: solved.variances.slice(0, -1).map((variance) => (variance <= smallest ? 0 : variance)),
    residualVariance,
    criterion: solved.criterion,
    iterations,
    solved,
  };
}

/** A better point than this one, or the same where there is none. */
function stepFrom(equations: MixedModelEquations, at: SolvedEquations): SolvedEquations {
  const { variances } = at;
  const residual = variances.at(-1) ?? 0;
  const { score, information, expected } = equations.slopes(at);
  // A variance at its end that would go further down has no say in the step.
  const held = variances.map(
    (variance, place) => variance <= 2 * SMALLEST_RATIO * residual && (score[place] ?? 0) <= 0,
  );
  const direction = solveHeld(information, score, held);
  let length = 1;
  for (let halving = 0; direction !== null && halving < MOST_HALVINGS; halving += 1) {
    const moved = variances.map((variance, place) => variance + length * (direction[place] ?? 0));
    const tried = equations.evaluate(bounded(moved, variances));
    if (tried.criterion <= at.criterion) return tried;
    length /= 2;
  }
  const expectedOf = variances.map((variance, place) =>
    held[place] === true ? variance : (expected[place] ?? variance),
  );
  const byExpectation = equations.evaluate(bounded(expectedOf, variances));
  return byExpectation.criterion <= at.criterion ? byExpectation : at;
}

/**
 * Variances that can be tried: above 0, and none far below what it was, since a long step rests on slopes of a place far
 * off. What is small already and may be none goes to its end at once.
 */
function bounded(variances: readonly number[], before: readonly number[]): number[] {
  const residual = Math.max(variances.at(-1) ?? 0, (before.at(-1) ?? 0) / MOST_FALL);
  return [
    ...variances.slice(0, -1).map((variance, place) => {
      const was = before[place] ?? 0;
      const least = was < NEARLY_NONE * residual ? 0 : was / MOST_FALL;
      return Math.max(variance, least, SMALLEST_RATIO * residual);
    }),
    residual,
  ];
}

/** Gauss-Jordan on the few variances that are free; null where they cannot be told apart. */
function solveHeld(
  information: readonly (readonly number[])[],
  score: readonly number[],
  held: readonly boolean[],
): number[] | null {
  const free = held.flatMap((is, place) => (is ? [] : [place]));
  const rows = free.map((row) => [...free.map((column) => information[row]?.[column] ?? 0), score[row] ?? 0]);
  for (let pivot = 0; pivot < rows.length; pivot += 1) {
    const ofPivot = rows[pivot] ?? [];
    const scale = ofPivot[pivot] ?? 0;
    if (!(Math.abs(scale) > 0)) return null;
    for (let row = 0; row < rows.length; row += 1) {
      const target = rows[row] ?? [];
      if (row === pivot) continue;
      const factor = (target[pivot] ?? 0) / scale;
      for (let column = pivot; column < target.length; column += 1) {
        target[column] = (target[column] ?? 0) - factor * (ofPivot[column] ?? 0);
      }
    }
  }
  const direction = held.map(() => 0);
  free.forEach((place, row) => {
    const ofRow = rows[row] ?? [];
    direction[place] = (ofRow.at(-1) ?? 0) / (ofRow[row] ?? 1);
  });
  return direction.every(Number.isFinite) ? direction : null;
}

/** The spread of all observations, a tenth of it to each factor. */
function plainStart({ factors, counts, sums, withinSquares }: MixedModelInput): number[] {
  let [observations, total] = [0, 0];
  for (let record = 0; record < counts.length; record += 1) {
    observations += counts[record] ?? 0;
    total += sums[record] ?? 0;
  }
  const mean = total / observations;
  let squares = withinSquares;
  for (let record = 0; record < counts.length; record += 1) {
    const count = counts[record] ?? 1;
    squares += count * ((sums[record] ?? 0) / count - mean) ** 2;
  }
  const spread = squares / Math.max(1, observations - 1);
  if (!(spread > 0)) {
    throw new DomainError('stats.undefined_statistic', 'all observations are the same: there is no variance to divide');
  }
  return [...factors.map(() => spread / 10), spread];
}

function assertInput({ factors, counts, sums, withinSquares }: MixedModelInput): void {
  assertLength('factors', factors, { min: 1 });
  if (counts.length === 0 || sums.length !== counts.length) {
    throw new DomainError('stats.invalid_shape', 'records need counts and sums, as many of one as of the other', {
      counts: counts.length,
      sums: sums.length,
    });
  }
  for (const { levels, of } of factors) {
    if (of.length !== counts.length || of.some((level) => level < -1 || level >= levels)) {
      throw new DomainError('stats.invalid_shape', 'a factor needs one of its levels a record', { levels });
    }
  }
  for (const count of counts) assertNonNegative('count', count - 1);
  for (const sum of sums) assertFinite('sum', sum);
  assertNonNegative('withinSquares', withinSquares);
}
