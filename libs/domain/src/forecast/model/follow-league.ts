import { choleskyInPlace, inverseOfFactor, solveByInverse } from '../../statistics/cholesky.js';
import type { ForecastPart, JudgedPlays } from './follow-players.js';

/** Plays whose games are known to lie before or after one another. */
export interface PlaysInRounds extends Pick<JudgedPlays, 'outcome' | 'classes'> {
  /** Number of the time of the play's game: never falls from one play to the next, and is one for games of one time. */
  readonly round: Int32Array;
}

/**
 * How far forecasts may be too bold or too timid over a whole league, and a class too frequent, before anything is judged:
 * variances of the slope around 1 and of a class's score around 0, a standard deviation of 0.1 for the slope and of 0.07
 * for the log odds of two classes. Round numbers that brought calibration nearest to a faultless forecast's on simulated
 * leagues; no source.
 */
const SLOPE_VARIANCE = 0.01;
const SCORE_VARIANCE = 0.0025;

/** The logarithm of a smaller probability would let one play turn the league. */
const LEAST = 1e-6;

/**
 * Moves forecasts by how those of earlier games held: log probabilities are stretched by a slope and shifted by an offset
 * of each class, which are the same for all players and begin at 1 and 0. All plays of a round together teach the rounds
 * behind it by one Newton step of the posterior from there, so that no play counts for its own round or for one before it.
 *
 * @returns probabilities, plays x classes, filled at the part's rows
 * @see Cox (1958), Biometrika 45, 562–565 (slope and intercept of forecasts); Fahrmeir (1992), J. Am. Stat. Assoc. 87,
 *   501–509 (the filter for outcomes that are classes)
 */
export function followLeague({ probabilities, rows }: ForecastPart, plays: PlaysInRounds): Float64Array {
  const { round, outcome, classes } = plays;
  const moved = Float64Array.from(probabilities);
  const line = new LeagueLine(classes);
  let current: number | undefined;
  for (const row of rows) {
    if (current !== undefined && round[row] !== current) line.learn();
    current = round[row];
    const of = moved.subarray(row * classes, (row + 1) * classes);
    line.judge(of, outcome[row] ?? 0);
  }
  return moved;
}

/** Slope and offsets, with what the plays of the round have told of them: the slope first, then one a class. */
class LeagueLine {
  readonly #classes: number;
  readonly #size: number;
  readonly #line: Float64Array;
  readonly #precision: Float64Array;
  readonly #gradient: Float64Array;
  readonly #logs: Float64Array;

  constructor(classes: number) {
    this.#classes = classes;
    this.#size = classes + 1;
    this.#line = new Float64Array(this.#size);
    this.#line[0] = 1;
    this.#precision = new Float64Array(this.#size ** 2);
    for (let at = 0; at < this.#size; at += 1) {
      this.#precision[at * this.#size + at] = 1 / (at === 0 ? SLOPE_VARIANCE : SCORE_VARIANCE);
    }
    this.#gradient = new Float64Array(this.#size);
    this.#logs = new Float64Array(classes);
  }

  /** Moves the forecast of a play in place, and takes in what happened. */
  judge(forecast: Float64Array, happened: number): void {
    const [classes, size, line, logs] = [this.#classes, this.#size, this.#line, this.#logs];
    const slope = line[0] ?? 1;
    let sum = 0;
    for (let k = 0; k < classes; k += 1) {
      const log = (logs[k] = Math.log(Math.max(forecast[k] ?? 0, LEAST)));
      sum += forecast[k] = Math.exp(slope * log + (line[k + 1] ?? 0));
    }
    let mean = 0;
    for (let k = 0; k < classes; k += 1) mean += (forecast[k] = (forecast[k] ?? 0) / sum) * (logs[k] ?? 0);
    // Gradient and information of the multinomial logarithm in slope and offsets.
    this.#gradient[0] = (this.#gradient[0] ?? 0) + (logs[happened] ?? 0) - mean;
    for (let k = 0; k < classes; k += 1) {
      const share = forecast[k] ?? 0;
      const off = (logs[k] ?? 0) - mean;
      const row = (k + 1) * size;
      this.#gradient[k + 1] = (this.#gradient[k + 1] ?? 0) + (k === happened ? 1 : 0) - share;
      this.#inform(0, share * off * off);
      this.#inform(row, share * off);
      for (let other = 0; other < k; other += 1) this.#inform(row + other + 1, -share * (forecast[other] ?? 0));
      this.#inform(row + k + 1, share * (1 - share));
    }
  }

  /** Takes what was judged for known from here on. */
  learn(): void {
    const size = this.#size;
    const factor = Float64Array.from(this.#precision);
    choleskyInPlace(factor, size);
    const step = solveByInverse(inverseOfFactor(factor, size), size, this.#gradient);
    for (let at = 0; at < size; at += 1) this.#line[at] = (this.#line[at] ?? 0) + (step[at] ?? 0);
    this.#gradient.fill(0);
  }

  /** Of the lower triangle, row by row. */
  #inform(cell: number, by: number): void {
    this.#precision[cell] = (this.#precision[cell] ?? 0) + by;
  }
}
