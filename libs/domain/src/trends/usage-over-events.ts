import type { PointsAdded } from '../tendencies/points-added.js';
import { oneGroup } from '../tendencies/one-group.js';
import { pointsAddedOf, pointTallies } from '../tendencies/points-added.js';
import { shareEstimate } from '../tendencies/decisions/counted-share.js';
import type { ShareEstimate } from '../statistics/dirichlet-multinomial-posterior.js';
import type { TendencyPlays } from '../tendencies/tendency-plays.js';
import { resultCounts } from '../tendencies/value-tallies.js';
import type { UsageCounts, WhoAndWhen } from './usage-counts.js';

/** One call in one event. */
export interface EventUsage {
  /** Place of the event in time. */
  readonly event: number;
  readonly count: number;
  /** Plays on which its dimension is known. */
  readonly known: number;
  /** With its Wilson interval; null where nothing is known. */
  readonly share: ShareEstimate | null;
  /** Players who used it, of those of whom anything is known. */
  readonly users: number;
  readonly players: number;
  /** For the side with the ball, whoever's habit it is. */
  readonly trials: number;
  readonly successes: number;
  readonly success: ShareEstimate | null;
  readonly pointsAdded: PointsAdded | null;
  /** Places of its plays in the batch. */
  readonly uses: readonly number[];
}

interface Asked extends WhoAndWhen {
  readonly facts: TendencyPlays;
  readonly confidence: number;
}

/** How one call was used in each event, and what came of it. */
export function usageOverEvents(
  { facts, eventOf, confidence }: Asked,
  counts: UsageCounts,
  code: number,
): EventUsage[] {
  const usesBy = Array.from({ length: counts.events }, (): number[] => []);
  for (const play of counts.uses(code)) usesBy[eventOf[facts.plays.chartIndex[play] ?? -1] ?? -1]?.push(play);
  return usesBy.map((uses, event) => {
    const seen = counts.playersSeen(event);
    const known = seen.reduce((sum, player) => sum + counts.known(event, player), 0);
    const places = Int32Array.from(uses);
    const { trials, successes } = resultCounts(facts, places);
    return {
      event,
      count: uses.length,
      known,
      share: shareEstimate({ count: uses.length, known }, confidence),
      users: seen.filter((player) => counts.count(event, player, code) > 0).length,
      players: seen.length,
      trials,
      successes,
      success: shareEstimate({ count: successes, known: trials }, confidence),
      pointsAdded: pointsAddedOf(pointTallies(facts, places, oneGroup(facts))[0], confidence),
      uses,
    };
  });
}
