import { DomainError } from '../../domain-error.js';
import { normalQuantile } from '../../statistics/distributions.js';
import type { Interval } from '../../statistics/interval.js';
import type { ScoredPlays } from './forecast-scores.js';

export interface CalibrationLine {
  /** 1 for a forecast without fault; below 1 it is too bold, above 1 too timid. */
  readonly slope: number;
  readonly slopeInterval: Interval;
  /** 0 for a forecast without fault; above 0 what it is about happens more often than it says. */
  readonly intercept: number;
  readonly interceptInterval: Interval;
}

const MOST_STEPS = 50;
const TOLERANCE = 1e-10;
/** Log odds beyond this are cut off: a forecast of 0 or 1 has none. */
const MOST_LOG_ODDS = 12;

/**
 * Calibration slope and intercept: logistic regression of what happened on the log odds of the forecast. With two
 * classes of the second; with more of every class, each as a yes or no. The interval treats games as clusters, since the
 * plays of a game share its plan.
 *
 * @param game       - game of each play
 * @param confidence - probability in (0, 1)
 * @returns null where the forecasts or the outcomes are all alike
 * @throws DomainError `stats.no_convergence`
 * @see Cox (1958), Biometrika 45, 562–565; Liang & Zeger (1986), Biometrika 73, 13–22 (variance by clusters)
 */
export function calibrationLine(scored: ScoredPlays, game: Int32Array, confidence: number): CalibrationLine | null {
  const { odds, happened, cluster } = asYesOrNo(scored, game);
  const isVaried = odds.some((value) => Math.abs(value - (odds[0] ?? 0)) > 1e-9);
  if (!isVaried || !happened.includes(0) || !happened.includes(1)) return null;
  // From no slope at all Newton's steps fall short rather than overshoot.
  let [intercept, slope] = [0, 0];
  for (let step = 0; ; step += 1) {
    if (step === MOST_STEPS) throw new DomainError('stats.no_convergence', 'the calibration line was not found', {});
    const { gradient, information } = derivatives(odds, happened, intercept, slope);
    const [moveIntercept, moveSlope] = solve(information, gradient);
    intercept += moveIntercept;
    slope += moveSlope;
    if (Math.abs(moveIntercept) + Math.abs(moveSlope) < TOLERANCE) break;
  }
  const variance = clusteredVariance(odds, happened, cluster, intercept, slope);
  const z = normalQuantile((1 + confidence) / 2);
  const around = (value: number, spread: number): Interval => ({
    lower: value - z * Math.sqrt(spread),
    upper: value + z * Math.sqrt(spread),
  });
  return {
    slope,
    slopeInterval: around(slope, variance[1]),
    intercept,
    interceptInterval: around(intercept, variance[0]),
  };
}

interface YesOrNo {
  readonly odds: Float64Array;
  readonly happened: Uint8Array;
  readonly cluster: Int32Array;
}

function asYesOrNo({ probabilities, outcome, classes }: ScoredPlays, game: Int32Array): YesOrNo {
  const told = classes === 2 ? [1] : Array.from({ length: classes }, (_, k) => k);
  const size = outcome.length * told.length;
  const odds = new Float64Array(size);
  const happened = new Uint8Array(size);
  const cluster = new Int32Array(size);
  let at = 0;
  outcome.forEach((seen, play) => {
    for (const k of told) {
      const probability = probabilities[play * classes + k] ?? 0;
      const value = Math.log(probability) - Math.log1p(-probability);
      odds[at] = Math.min(MOST_LOG_ODDS, Math.max(-MOST_LOG_ODDS, value));
      happened[at] = seen === k ? 1 : 0;
      cluster[at] = game[play] ?? 0;
      at += 1;
    }
  });
  return { odds, happened, cluster };
}

/** Upper triangle of a symmetric 2 x 2 matrix. */
type Symmetric = readonly [number, number, number];

function derivatives(
  odds: Float64Array,
  happened: Uint8Array,
  intercept: number,
  slope: number,
): { readonly gradient: readonly [number, number]; readonly information: Symmetric } {
  let [g0, g1, i00, i01, i11] = [0, 0, 0, 0, 0];
  for (let at = 0; at < odds.length; at += 1) {
    const x = odds[at] ?? 0;
    const p = 1 / (1 + Math.exp(-(intercept + slope * x)));
    const off = (happened[at] ?? 0) - p;
    const weight = p * (1 - p);
    g0 += off;
    g1 += off * x;
    i00 += weight;
    i01 += weight * x;
    i11 += weight * x * x;
  }
  return { gradient: [g0, g1], information: [i00, i01, i11] };
}

function solve([a, b, c]: Symmetric, [x, y]: readonly [number, number]): readonly [number, number] {
  const determinant = a * c - b * b;
  return [(c * x - b * y) / determinant, (a * y - b * x) / determinant];
}

/** Diagonal of the sandwich: inverse information, sum of the squared scores of whole games, inverse information. */
function clusteredVariance(
  odds: Float64Array,
  happened: Uint8Array,
  cluster: Int32Array,
  intercept: number,
  slope: number,
): readonly [number, number] {
  const { information } = derivatives(odds, happened, intercept, slope);
  const scores = new Map<number, [number, number]>();
  for (let at = 0; at < odds.length; at += 1) {
    const x = odds[at] ?? 0;
    const off = (happened[at] ?? 0) - 1 / (1 + Math.exp(-(intercept + slope * x)));
    const key = cluster[at] ?? 0;
    let score = scores.get(key);
    if (score === undefined) scores.set(key, (score = [0, 0]));
    score[0] += off;
    score[1] += off * x;
  }
  // With few games the plain sandwich is too narrow; this is the usual factor.
  const factor = scores.size > 1 ? scores.size / (scores.size - 1) : 1;
  let [v0, v1] = [0, 0];
  for (const score of scores.values()) {
    const [first, second] = solve(information, score);
    v0 += first * first;
    v1 += second * second;
  }
  return [v0 * factor, v1 * factor];
}
