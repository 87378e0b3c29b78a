import { minimise } from '../logistic/minimise.js';

/** One part of what is seen: a value for each play. */
export interface CodedPart {
  /** One a play: below `values`, -1 where it is not known. */
  readonly codes: Int16Array;
  readonly values: number;
}

/** Shares of the classes that are multiplied, part by part, and then made to add up to 1. Each row adds up to 1 itself. */
export interface AdditiveShares {
  readonly start: Float64Array;
  /** A part's values x classes, and last the row of plays of which it is not known. */
  readonly parts: readonly Float64Array[];
}

/** Draws each row towards saying nothing, as hard as one play does; the best of 0.3, 1 and 3 for what it is held against. */
const RIDGE = 1;
/** The start is free but for rounding. */
const RIDGE_OF_START = 1e-6;
const TOLERANCE = 1e-5;
const MOST_STEPS = 60;

/**
 * The products that come closest to given probabilities of plays: multinomial logistic regression on indicators of what is
 * seen, where the plays have probabilities instead of outcomes (least Kullback-Leibler divergence from them).
 *
 * @param rows   - plays to come close to
 * @param wanted - plays x classes, adding up to 1 at each of `rows`
 * @see le Cessie & van Houwelingen (1992), Appl. Stat. 41, 191–201, for the ridge
 */
export function additiveShares(
  parts: readonly CodedPart[],
  rows: Int32Array,
  wanted: Float64Array,
  classes: number,
): AdditiveShares {
  const bases: number[] = [];
  let width = 1;
  for (const { values } of parts) {
    bases.push(width);
    width += values + 1;
  }
  const entries = entriesOf(parts, bases, rows);
  const perRow = parts.length + 1;
  const scores = new Float64Array(classes);
  const weights = new Float64Array(width * classes);
  minimise(
    (at, gradient) => {
      let loss = 0;
      at.forEach((value, place) => {
        const ridge = place < classes ? RIDGE_OF_START : RIDGE;
        loss += (ridge * value * value) / 2;
        gradient[place] = ridge * value;
      });
      rows.forEach((row, place) => {
        const [from, to] = [place * perRow, (place + 1) * perRow];
        scores.fill(0);
        for (let entry = from; entry < to; entry += 1) addRow(scores, at, entries[entry] ?? 0);
        const sum = logOfSum(scores);
        for (let k = 0; k < classes; k += 1) {
          const share = wanted[row * classes + k] ?? 0;
          const score = scores[k] ?? 0;
          loss += share * (sum - score);
          scores[k] = Math.exp(score - sum) - share;
        }
        for (let entry = from; entry < to; entry += 1) addToRow(gradient, scores, entries[entry] ?? 0);
      });
      return loss;
    },
    weights,
    TOLERANCE,
    MOST_STEPS,
  );
  const block = (base: number, count: number): Float64Array =>
    sharesOfRows(weights.subarray(base * classes, (base + count) * classes), classes);
  return { start: block(0, 1), parts: parts.map(({ values }, part) => block(bases[part] ?? 0, values + 1)) };
}

/** Places in the weights that each row adds up: the start, then one of each part. */
function entriesOf(parts: readonly CodedPart[], bases: readonly number[], rows: Int32Array): Int32Array {
  const entries = new Int32Array(rows.length * (parts.length + 1));
  let at = 0;
  for (const row of rows) {
    entries[at++] = 0;
    parts.forEach(({ codes, values }, part) => {
      const code = codes[row] ?? -1;
      entries[at++] = (bases[part] ?? 0) + (code < 0 ? values : code);
    });
  }
  return entries;
}

function addRow(scores: Float64Array, weights: Float64Array, row: number): void {
  const base = row * scores.length;
  for (let k = 0; k < scores.length; k += 1) scores[k] = (scores[k] ?? 0) + (weights[base + k] ?? 0);
}

function addToRow(gradient: Float64Array, slopes: Float64Array, row: number): void {
  const base = row * slopes.length;
  for (let k = 0; k < slopes.length; k += 1) gradient[base + k] = (gradient[base + k] ?? 0) + (slopes[k] ?? 0);
}

/** Natural logarithm of the sum of the exponentials. */
function logOfSum(scores: Float64Array): number {
  let top = -Infinity;
  for (const score of scores) top = Math.max(top, score);
  let sum = 0;
  for (const score of scores) sum += Math.exp(score - top);
  return top + Math.log(sum);
}

function sharesOfRows(weights: Float64Array, classes: number): Float64Array {
  const shares = new Float64Array(weights.length);
  for (let base = 0; base < weights.length; base += classes) {
    const sum = logOfSum(weights.subarray(base, base + classes));
    for (let at = base; at < base + classes; at += 1) shares[at] = Math.exp((weights[at] ?? 0) - sum);
  }
  return shares;
}
