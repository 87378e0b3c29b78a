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

/** Sums over the plays of one value, and over its games. */
export interface PointTally {
  plays: number;
  games: number;
  sum: number;
  squares: number;
  /** Over games: squared sums, sums times plays, squared plays. */
  gameSquares: number;
  gameProducts: number;
  gameSizes: number;
}

/** And of the game that is being passed through. */
interface OpenTally extends PointTally {
  chart: number;
  gamePlays: number;
  gameSum: number;
}

/**
 * @param places - ascending places of plays in the batch, in which the plays of one chart lie together
 * @param codes  - value of each play of the batch, -1 unknown
 * @returns by the value's code; values without a play of which it is known what followed are left out, and all where the
 *   batch carries no expected points
 */
export function pointTallies(
  { plays, hasResult, pointsAdded }: TendencyPlays,
  places: Int32Array,
  codes: Int16Array,
): readonly (PointTally | undefined)[] {
  const tallies: (OpenTally | undefined)[] = [];
  if (pointsAdded === undefined) return tallies;
  for (const play of places) {
    const code = codes[play] ?? -1;
    const points = pointsAdded[play] ?? UNKNOWN_POINTS;
    if (code < 0 || hasResult[play] !== 1 || points === UNKNOWN_POINTS) continue;
    const tally = (tallies[code] ??= emptyTally());
    const chart = plays.chartIndex[play] ?? -1;
    if (tally.chart !== chart) {
      closeGame(tally);
      tally.chart = chart;
      tally.games += 1;
    }
    tally.plays += 1;
    tally.sum += points;
    tally.squares += points * points;
    tally.gamePlays += 1;
    tally.gameSum += points;
  }
  for (const tally of tallies) if (tally !== undefined) closeGame(tally);
  return tallies;
}

function emptyTally(): OpenTally {
  const ofGames = { games: 0, gameSquares: 0, gameProducts: 0, gameSizes: 0 };
  return { plays: 0, sum: 0, squares: 0, ...ofGames, chart: NO_CHART, gamePlays: 0, gameSum: 0 };
}

const NO_CHART = -2;

function closeGame(tally: OpenTally): void {
  const { gamePlays, gameSum } = tally;
  tally.gameSquares += gameSum * gameSum;
  tally.gameProducts += gameSum * gamePlays;
  tally.gameSizes += gamePlays * gamePlays;
  tally.gamePlays = 0;
  tally.gameSum = 0;
}

/**
 * The mean of one value's plays with Student's interval. Its variance is that of independent plays or that between
 * games, whichever is larger: plays of one game share its plan, and a few games that happen to agree prove nothing.
 *
 * @param tally      - undefined where no play of the value is known to have led anywhere
 * @param confidence - in (0, 1)
 * @returns null for no tally
 * @throws DomainError `stats.invalid_probability`
 * @see Kish (1965), Survey Sampling, chapter 6 (variance of a ratio mean over clusters)
 */
export function pointsAddedOf(tally: PointTally | undefined, confidence: number): PointsAdded | null {
  if (tally === undefined) return null;
  const { plays, games, sum, squares, gameSquares, gameProducts, gameSizes } = tally;
  const mean = sum / plays;
  if (plays < 2) return { plays, mean, interval: null };
  const spread = Math.max(0, squares - plays * mean * mean) / (plays - 1);
  const betweenGames = gameSquares - 2 * mean * gameProducts + mean * mean * gameSizes;
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
