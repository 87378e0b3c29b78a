import type { FeatureColumn } from '../features/feature-column.js';
import { eachRow, type Design, type DesignPlan, type DesignRow } from './design.js';
import { minimise } from './minimise.js';

/** Coefficients by score and place: one score with two classes, else one a class. */
export interface LogisticModel {
  readonly classes: number;
  readonly coefficients: Float64Array;
}

/** Ends when a step improves the sum of losses by less than this share of it. */
const TOLERANCE = 3e-6;
const MOST_STEPS = 80;

/**
 * Multinomial logistic regression with a ridge penalty on every coefficient but the intercepts.
 *
 * @param rows  - training plays
 * @param ridge - penalty: half of this times the design's own factor times the square of each coefficient is added to
 *   the sum of losses, so that more plays outweigh it
 * @param tolerance - see `minimise`
 * @see le Cessie & van Houwelingen (1992), Appl. Stat. 41, 191–201
 */
export function fitLogistic(
  design: Design,
  outcome: Int32Array,
  classes: number,
  rows: Int32Array,
  ridge: number,
  tolerance = TOLERANCE,
): LogisticModel {
  const { width, ridges, starts, places, weights } = design;
  const stride = strideOf({ classes });
  const coefficients = new Float64Array(width * stride);
  const scores = new Float64Array(stride);
  minimise(
    (at, gradient) => {
      let loss = 0;
      for (let place = 0; place < width; place += 1) {
        const penalty = place === 0 ? 1e-6 : ridge * (ridges[place] ?? 1);
        for (let score = 0; score < stride; score += 1) {
          const value = at[place * stride + score] ?? 0;
          loss += (penalty * value * value) / 2;
          gradient[place * stride + score] = penalty * value;
        }
      }
      for (const row of rows) {
        const [from, to] = [starts[row] ?? 0, starts[row + 1] ?? 0];
        if (stride === 1) {
          let score = 0;
          for (let entry = from; entry < to; entry += 1) score += (weights[entry] ?? 0) * (at[places[entry] ?? 0] ?? 0);
          const seen = outcome[row] ?? 0;
          const signed = seen === 1 ? score : -score;
          const small = Math.exp(-Math.abs(score));
          loss += Math.log1p(small) + Math.max(0, -signed);
          const slope = (score >= 0 ? 1 / (1 + small) : small / (1 + small)) - seen;
          for (let entry = from; entry < to; entry += 1) {
            const place = places[entry] ?? 0;
            gradient[place] = (gradient[place] ?? 0) + slope * (weights[entry] ?? 0);
          }
          continue;
        }
        scores.fill(0);
        addScores(design, [from, to], at, stride, scores, 0);
        const seen = outcome[row] ?? 0;
        loss += softmaxInPlace(scores, seen);
        scores[seen] = (scores[seen] ?? 0) - 1;
        for (let entry = from; entry < to; entry += 1) {
          const [base, weight] = [(places[entry] ?? 0) * stride, weights[entry] ?? 0];
          for (let k = 0; k < stride; k += 1)
            gradient[base + k] = (gradient[base + k] ?? 0) + weight * (scores[k] ?? 0);
        }
      }
      return loss;
    },
    coefficients,
    tolerance,
    MOST_STEPS,
  );
  return { classes, coefficients };
}

/** Adds up the scores of a play whose entries stand in some places, one after the other from `to` on. */
function addScores(
  { places, weights }: Pick<DesignRow, 'places' | 'weights'>,
  [from, end]: readonly [number, number],
  coefficients: Float64Array,
  stride: number,
  scores: Float64Array,
  to: number,
): void {
  for (let entry = from; entry < end; entry += 1) {
    const [base, weight] = [(places[entry] ?? 0) * stride, weights[entry] ?? 0];
    for (let k = 0; k < stride; k += 1) scores[to + k] = (scores[to + k] ?? 0) + weight * (coefficients[base + k] ?? 0);
  }
}

/** Scores become probabilities. @returns the log loss of the class that was seen */
function softmaxInPlace(scores: Float64Array, seen: number): number {
  let top = -Infinity;
  for (const score of scores) top = Math.max(top, score);
  const margin = top - (scores[seen] ?? 0);
  let sum = 0;
  for (let k = 0; k < scores.length; k += 1) sum += scores[k] = Math.exp((scores[k] ?? 0) - top);
  for (let k = 0; k < scores.length; k += 1) scores[k] = (scores[k] ?? 0) / sum;
  return Math.log(sum) + margin;
}

/** Log probabilities up to a constant: plays x classes, filled at `rows`. */
export function scoreByLogistic(model: LogisticModel, design: Design, rows: Int32Array): Float64Array {
  const { coefficients } = model;
  const { starts } = design;
  const stride = strideOf(model);
  const scores = new Float64Array((starts.length - 1) * stride);
  for (const row of rows) {
    addScores(design, [starts[row] ?? 0, starts[row + 1] ?? 0], coefficients, stride, scores, row * stride);
  }
  return scores;
}

/** The same of plays that stand in no design: of all of them, by their columns. */
export function scoreColumns(model: LogisticModel, plan: DesignPlan, columns: readonly FeatureColumn[]): Float64Array {
  const stride = strideOf(model);
  const scores = new Float64Array((columns[0]?.values.length ?? 0) * stride);
  eachRow(plan, columns, (play, row) => {
    addScores(row, [0, row.count], model.coefficients, stride, scores, play * stride);
  });
  return scores;
}

/** With two classes one score a play is enough. */
function strideOf({ classes }: Pick<LogisticModel, 'classes'>): number {
  return classes === 2 ? 1 : classes;
}
