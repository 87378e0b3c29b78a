import type { DimensionCodes } from '../dimension-codes.js';
import type { TendencyPlays } from '../tendency-plays.js';
import { EARLIER, RECENT, type Periods } from './periods.js';

/** One game's counts of a dimension's values in each period. */
export interface GameCounts {
  readonly chart: number;
  readonly earlier: Float64Array;
  readonly recent: Float64Array;
}

/** @param places - plays to look at; only counting ones of known value that lie in a period take part */
export function countGames(
  { plays, counts }: TendencyPlays,
  read: DimensionCodes,
  periods: Periods,
  places: Int32Array,
): GameCounts[] {
  const games = new Map<number, GameCounts>();
  for (const play of places) {
    const [code, period] = [read.codes[play] ?? -1, periods[play] ?? -1];
    if (counts[play] !== 1 || code < 0 || (period !== EARLIER && period !== RECENT)) continue;
    const chart = plays.chartIndex[play] ?? -1;
    const none = (): Float64Array => new Float64Array(read.values.length);
    const game = games.get(chart) ?? { chart, earlier: none(), recent: none() };
    games.set(chart, game);
    const part = period === EARLIER ? game.earlier : game.recent;
    part[code] = (part[code] ?? 0) + 1;
  }
  return [...games.values()].sort((first, second) => first.chart - second.chart);
}

export function addCounts(parts: readonly Float64Array[], values: number): Float64Array {
  const sum = new Float64Array(values);
  for (const part of parts) {
    for (let value = 0; value < values; value += 1) sum[value] = (sum[value] ?? 0) + (part[value] ?? 0);
  }
  return sum;
}

export function totalOf(counts: Float64Array): number {
  let total = 0;
  for (const count of counts) total += count;
  return total;
}
