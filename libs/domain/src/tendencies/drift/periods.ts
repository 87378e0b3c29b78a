import { halves } from '../../football/expected-points-halves.js';
import { assertCount } from '../../statistics/guards.js';
import type { TendencyPlays } from '../tendency-plays.js';

/** Which of two periods a play belongs to. */
export const EARLIER = 0;
export const RECENT = 1;
export const NEITHER = -1;

/** One entry a play: EARLIER, RECENT or NEITHER. */
export type Periods = Int8Array;

/**
 * Two given sets of games, such as two events or the games before and after a change of the rules.
 *
 * @param earlier - places of charts in the batch's list; a chart in neither set is left out
 * @param recent  - likewise; a chart in both counts as recent
 */
export function periodsOfGames(
  { plays }: TendencyPlays,
  earlier: readonly number[],
  recent: readonly number[],
): Periods {
  const ofChart = new Int8Array(plays.charts.length).fill(NEITHER);
  for (const chart of earlier) ofChart[chart] = EARLIER;
  for (const chart of recent) ofChart[chart] = RECENT;
  return Int8Array.from(plays.chartIndex, (chart) => ofChart[chart] ?? NEITHER);
}

/**
 * The last games against all before them.
 *
 * @param games  - places of charts in the order in which the games were played
 * @param recent - how many of the last ones are recent, 0 to all
 * @throws DomainError `stats.invalid_count`
 */
export function periodsByOrder(facts: TendencyPlays, games: readonly number[], recent: number): Periods {
  assertCount('recent', recent, { min: 0, max: games.length });
  const cut = games.length - recent;
  return periodsOfGames(facts, games.slice(0, cut), games.slice(cut));
}

/** First half against second in each game; overtime and plays of unknown quarter belong to neither. */
export function periodsByHalf({ plays }: TendencyPlays): Periods {
  return Int8Array.from(halves(plays), (half) => (half === 1 ? EARLIER : half === 2 ? RECENT : NEITHER));
}
