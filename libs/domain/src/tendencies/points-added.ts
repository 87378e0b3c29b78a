import { UNKNOWN_POINTS } from '../football/expected-points-added.js';
import type { Interval } from '../statistics/interval.js';
import { studentQuantile } from '../statistics/student-quantile.js';
import type { TendencyPlays } from './tendency-plays.js';

/** Expected points that some plays added, seen from the side with the ball. */
export interface PointsAdded {
  /** Plays of which it is known what followed, ≥ 1. */
  readonly plays: number;
  /** Points a play. */
  readonly mean: number;
  /** Of the mean, games as clusters; null for a single play, which shows no spread. */
  readonly interval: Interval | null;
}

/** Sums over the plays of each value, and over its games; arrays have one entry a value. */
export interface PointTallies {
  readonly plays: Int32Array;
  readonly games: Int32Array;
  readonly sums: Float64Array;
  readonly squares: Float64Array;
  /** Over games: squared sums, sums times plays, squared plays. */
  readonly gameSquares: Float64Array;
  readonly gameProducts: Float64Array;
  readonly gameSizes: Float64Array;
}

/**
 * @param places - ascending places of plays in the batch, in which the plays of one chart lie together
 * @param codes  - value of each play of the batch, -1 unknown
 * @returns null where the batch carries no expected points
 */
export function pointTallies(
  { plays, hasResult, pointsAdded }: TendencyPlays,
  places: Int32Array,
  codes: Int16Array,
  values: number,
): PointTallies | null {
  if (pointsAdded === undefined) return null;
  const [counts, games] = [new Int32Array(values), new Int32Array(values)];
  const [sums, squares] = [new Float64Array(values), new Float64Array(values)];
  const [gameSquares, gameProducts] = [new Float64Array(values), new Float64Array(values)];
  const gameSizes = new Float64Array(values);
  // Of the game that is being passed through, value by value.
  const chartOf = new Int32Array(values).fill(-1);
  const [gamePlays, gameSums] = [new Float64Array(values), new Float64Array(values)];
  const closeGame = (code: number): void => {
    const [size, sum] = [gamePlays[code] ?? 0, gameSums[code] ?? 0];
    gameSquares[code] = (gameSquares[code] ?? 0) + sum * sum;
    gameProducts[code] = (gameProducts[code] ?? 0) + sum * size;
    gameSizes[code] = (gameSizes[code] ?? 0) + size * size;
    gamePlays[code] = 0;
    gameSums[code] = 0;
  };

  for (const play of places) {
    const code = codes[play] ?? -1;
    const points = pointsAdded[play] ?? UNKNOWN_POINTS;
    if (code < 0 || hasResult[play] !== 1 || points === UNKNOWN_POINTS) continue;
    const chart = plays.chartIndex[play] ?? -1;
    if (chartOf[code] !== chart) {
      closeGame(code);
      chartOf[code] = chart;
      games[code] = (games[code] ?? 0) + 1;
    }
    counts[code] = (counts[code] ?? 0) + 1;
    sums[code] = (sums[code] ?? 0) + points;
    squares[code] = (squares[code] ?? 0) + points * points;
    gamePlays[code] = (gamePlays[code] ?? 0) + 1;
    gameSums[code] = (gameSums[code] ?? 0) + points;
  }
  for (let code = 0; code < values; code += 1) closeGame(code);
  return { plays: counts, games, sums, squares, gameSquares, gameProducts, gameSizes };
}

/**
 * The mean of one value's plays with Student's interval. Its variance is that of independent plays or that between
 * games, whichever is larger: plays of one game share its plan, and a few games that happen to agree prove nothing.
 *
 * @param confidence - in (0, 1)
 * @returns null where no play of the value is known to have led anywhere
 * @throws DomainError `stats.invalid_probability`
 * @see Kish (1965), Survey Sampling, chapter 6 (variance of a ratio mean over clusters)
 */
export function pointsAddedOf(tallies: PointTallies | null, place: number, confidence: number): PointsAdded | null {
  const plays = tallies?.plays[place] ?? 0;
  if (tallies === null || plays === 0) return null;
  const mean = (tallies.sums[place] ?? 0) / plays;
  if (plays < 2) return { plays, mean, interval: null };
  const spread = Math.max(0, (tallies.squares[place] ?? 0) - plays * mean * mean) / (plays - 1);
  const games = tallies.games[place] ?? 0;
  const betweenGames =
    (tallies.gameSquares[place] ?? 0) -
    2 * mean * (tallies.gameProducts[place] ?? 0) +
    mean * mean * (tallies.gameSizes[place] ?? 0);
  const clustered = games < 2 ? 0 : ((games / (games - 1)) * Math.max(0, betweenGames)) / (plays * plays);
  const half = quantileOf(confidence, plays - 1) * Math.sqrt(Math.max(spread / plays, clustered));
  return { plays, mean, interval: { lower: mean - half, upper: mean + half } };
}

/** A profile asks for the same few quantiles thousands of times, and each is a search. */
const QUANTILES = new Map<string, number>();
const MOST_QUANTILES = 10_000;

function quantileOf(confidence: number, degreesOfFreedom: number): number {
  const key = `${confidence} ${degreesOfFreedom}`;
  const kept = QUANTILES.get(key);
  if (kept !== undefined) return kept;
  const quantile = studentQuantile(confidence, degreesOfFreedom);
  if (QUANTILES.size >= MOST_QUANTILES) QUANTILES.clear();
  QUANTILES.set(key, quantile);
  return quantile;
}
