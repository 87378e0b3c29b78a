import { readDimension } from '../../tendencies/dimensions.js';
import { DIMENSION_LABELS, type DimensionName } from '../../tendencies/dimension-names.js';
import { shareEstimate } from '../../tendencies/decisions/counted-share.js';
import type { Side } from '../../tendencies/tendency-plays.js';
import { claimId } from '../claim-ids.js';
import { plain, references } from '../share-claims.js';
import type { HabitSource } from './habit-claims.js';
import type { EventPoint, ReportEvent, ShareOverEvents } from './habits-shape.js';

/** What a report must know of a game beyond its plays. */
export interface HabitGame {
  readonly eventId: string | null;
  /** ISO 8601 date, or null where it is not known. */
  readonly playedOn: string | null;
  readonly rulesVersion: string | null;
}

const FOLLOWED = { offense: 'callFamily', defense: 'coverage' } as const satisfies Record<Side, DimensionName>;
const MOST_SHARES = 3;

/** The events of the games, in the order in which they began; those of unknown date last. */
export function eventsOf(games: readonly HabitGame[]): ReportEvent[] {
  const events = new Map<string | null, ReportEvent>();
  for (const { eventId, playedOn } of games) {
    const before = events.get(eventId);
    const dates = [before?.firstPlayedOn ?? null, playedOn].filter((date) => date !== null).sort();
    events.set(eventId, { eventId, firstPlayedOn: dates[0] ?? null, games: (before?.games ?? 0) + 1 });
  }
  return [...events.values()].sort((a, b) => compared(a.firstPlayedOn, b.firstPlayedOn));
}

function compared(a: string | null, b: string | null): number {
  return (a ?? '~') < (b ?? '~') ? -1 : (a ?? '~') > (b ?? '~') ? 1 : 0;
}

/** What is called most, event by event; nothing where there is one event only. */
export function sharesOverEvents(
  { side, asked }: HabitSource,
  games: readonly HabitGame[],
  events: readonly ReportEvent[],
): ShareOverEvents[] {
  if (events.length < 2) return [];
  const dimension = FOLLOWED[side];
  const { facts, vocabulary, confidence } = asked;
  const { codes, values } = readDimension(dimension, facts, vocabulary);
  const eventOf = games.map(({ eventId }) => events.findIndex((event) => event.eventId === eventId));
  const tallies = values.map(() => events.map((): number[] => []));
  const known = events.map(() => 0);
  for (let play = 0; play < codes.length; play += 1) {
    const code = codes[play] ?? -1;
    const event = eventOf[facts.plays.chartIndex[play] ?? -1] ?? -1;
    if (facts.counts[play] !== 1 || code < 0 || event < 0) continue;
    known[event] = (known[event] ?? 0) + 1;
    tallies[code]?.[event]?.push(play);
  }
  return values
    .map((value, code) => ({ value, byEvent: tallies[code] ?? [] }))
    .filter(({ byEvent }) => byEvent.some((plays) => plays.length > 0))
    .sort((a, b) => b.byEvent.flat().length - a.byEvent.flat().length)
    .slice(0, MOST_SHARES)
    .map(({ value, byEvent }) => ({
      side,
      dimension,
      dimensionLabel: DIMENSION_LABELS[dimension],
      label: value.label,
      points: byEvent.map((plays, event): EventPoint => {
        const counts = { count: plays.length, known: known[event] ?? 0 };
        const estimate = shareEstimate(counts, confidence);
        return {
          id: claimId([side, 'over-events', dimension, value.key, events[event]?.eventId ?? 'no-event']),
          ...counts,
          interval: estimate === null ? null : plain(estimate.interval),
          plays: references(facts.plays, plays),
        };
      }),
    }));
}
