import type { TendencyPlays } from '#domain/tendencies/tendency-plays.js';
import type { EventUsage } from '#domain/trends/usage-over-events.js';
import type { UsageResponse } from './event-usage.dto.js';
import { count, estimate, expectedPoints } from './figures.js';
import { playReference } from './play-reference.dto.js';
import type { Plain } from './plain.js';

/** @param withPlays - whether its plays are told; those of every call over all events would be a whole archive */
export function usageResponse(usage: EventUsage, facts: TendencyPlays, withPlays: boolean): Plain<UsageResponse> {
  return {
    ...count(usage),
    share: estimate(usage.share),
    users: usage.users,
    players: usage.players,
    successes: usage.successes,
    trials: usage.trials,
    success: estimate(usage.success),
    expectedPointsAdded: expectedPoints(usage.pointsAdded),
    plays: withPlays ? usage.uses.map((play) => playReference(facts.plays, play)) : [],
  };
}
