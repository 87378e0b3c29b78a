import { minimise } from '../logistic/minimise.js';

/** A log-linear pool: log p = sum of weights x log p of the members + class intercepts, made to add up to 1. */
export interface Blend {
  readonly weights: readonly number[];
  readonly intercepts: readonly number[];
}

/** Forecasts of some later games by members that had not seen them: log probabilities, plays x classes. */
export interface BlendPart {
  readonly members: readonly Float64Array[];
  readonly rows: Int32Array;
}

/**
 * How firmly the prior is held to, in the units of the loss's curvature: few games must not decide alone which member is
 * the better one, nor how bold the pool is, and least of all where the middle lies: the plays of a game and of a player
 * share what is not known of them, so that what is off in the judged games is seldom off in the next. On many games all of
 * it gives way, and the middle soonest: beyond so many plays what is off is the league's own drift, which lasts.
 */
const FIRM = 40;
const FIRM_ON_BOLDNESS = 400;
const FIRM_ON_INTERCEPTS = 3000;
const PLAYS_THAT_TELL_THE_MIDDLE = 4000;

/**
 * Weights by which the members of a model are pooled, fitted to forecasts of games that they had not learned from.
 * Weights that do not add up to one sharpen or flatten what comes out, and intercepts move it, so that the pool is
 * calibrated on the way.
 *
 * @param prior - weights where nothing has been judged
 * @see Genest & Zidek (1986), Stat. Sci. 1, 114–135 (logarithmic pools); Wolpert (1992), Neural Netw. 5, 241–259
 */
export function fitBlend(
  parts: readonly BlendPart[],
  outcome: Int32Array,
  classes: number,
  prior: readonly number[],
): Blend {
  const count = prior.length;
  const judged = parts.reduce((sum, { rows }) => sum + rows.length, 0);
  const firmOnIntercepts = FIRM_ON_INTERCEPTS * Math.min(1, (PLAYS_THAT_TELL_THE_MIDDLE / Math.max(1, judged)) ** 2);
  const at = new Float64Array(count + classes);
  at.set(prior);
  const start = Float64Array.from(at);
  const scores = new Float64Array(classes);
  minimise(
    (now, gradient) => {
      let loss = 0;
      const off = now.map((value, place) => value - (start[place] ?? 0));
      const mean = off.subarray(0, count).reduce((sum, value) => sum + value, 0) / count;
      loss += (FIRM_ON_BOLDNESS * count * mean * mean) / 2;
      for (let place = 0; place < now.length; place += 1) {
        const apart = (off[place] ?? 0) - (place < count ? mean : 0);
        const firm = place < count ? FIRM : firmOnIntercepts;
        loss += (firm * apart * apart) / 2;
        gradient[place] = firm * apart + (place < count ? FIRM_ON_BOLDNESS * mean : 0);
      }
      for (const { members, rows } of parts) {
        for (const row of rows) {
          pool(now, members, row, classes, scores);
          const seen = outcome[row] ?? 0;
          loss -= Math.log(Math.max(scores[seen] ?? 0, Number.MIN_VALUE));
          for (let k = 0; k < classes; k += 1) {
            const slope = (scores[k] ?? 0) - (k === seen ? 1 : 0);
            for (let member = 0; member < count; member += 1) {
              gradient[member] = (gradient[member] ?? 0) + slope * (members[member]?.[row * classes + k] ?? 0);
            }
            gradient[count + k] = (gradient[count + k] ?? 0) + slope;
          }
        }
      }
      return loss;
    },
    at,
    1e-9,
    200,
  );
  return { weights: [...at.subarray(0, count)], intercepts: [...at.subarray(count)] };
}

/** @returns probabilities, plays x classes, filled at `rows` */
export function blendMembers(
  blend: Blend,
  members: readonly Float64Array[],
  rows: Int32Array,
  classes: number,
): Float64Array {
  const at = Float64Array.from([...blend.weights, ...blend.intercepts]);
  const probabilities = new Float64Array(members[0]?.length ?? 0);
  const scores = new Float64Array(classes);
  for (const row of rows) {
    pool(at, members, row, classes, scores);
    probabilities.set(scores, row * classes);
  }
  return probabilities;
}

function pool(
  at: Float64Array,
  members: readonly Float64Array[],
  row: number,
  classes: number,
  scores: Float64Array,
): void {
  let top = -Infinity;
  for (let k = 0; k < classes; k += 1) {
    let score = at[members.length + k] ?? 0;
    for (let member = 0; member < members.length; member += 1) {
      score += (at[member] ?? 0) * (members[member]?.[row * classes + k] ?? 0);
    }
    scores[k] = score;
    top = Math.max(top, score);
  }
  let sum = 0;
  for (let k = 0; k < classes; k += 1) sum += scores[k] = Math.exp((scores[k] ?? 0) - top);
  for (let k = 0; k < classes; k += 1) scores[k] = (scores[k] ?? 0) / sum;
}
