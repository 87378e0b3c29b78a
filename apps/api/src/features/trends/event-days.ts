import type { CountingChart } from '../charts/charts.service.js';

/** Events as trends see them: those that began on one day stand together, whichever clan keeps the record. */
export interface EventDay {
  readonly eventIds: readonly string[];
  readonly name: string;
  readonly startsOn: string | null;
  readonly games: number;
}

export interface EventDays {
  readonly days: readonly EventDay[];
  /** One a chart: place among the days, -1 for games outside events. */
  readonly eventOf: Int16Array;
}

interface NamedEvent {
  readonly id: string;
  readonly name: string;
  readonly startsOn: string | null;
}

/** The events of some charts in time; one without a day begins with its first charted game. */
export function eventDays(charts: readonly CountingChart[], events: readonly NamedEvent[]): EventDays {
  const byId = new Map(events.map((event) => [event.id, event]));
  const firstGame = new Map<string, string>();
  for (const { eventId, playedOn } of charts) {
    if (eventId === null || playedOn === null) continue;
    const earlier = firstGame.get(eventId);
    if (earlier === undefined || playedOn < earlier) firstGame.set(eventId, playedOn);
  }
  const dayOf = (eventId: string): string | null => byId.get(eventId)?.startsOn ?? firstGame.get(eventId) ?? null;
  const ids = new Set(charts.flatMap(({ eventId }) => eventId ?? []));
  const days = [...new Set([...ids].flatMap((id) => dayOf(id) ?? []))].sort();
  const placeOf = (eventId: string | null): number => (eventId === null ? -1 : days.indexOf(dayOf(eventId) ?? ''));
  return {
    days: days.map((day, place) => {
      const eventIds = [...ids].filter((id) => placeOf(id) === place).sort();
      const names = new Set(eventIds.map((id) => byId.get(id)?.name ?? 'an event you may not see'));
      const games = charts.filter(({ eventId }) => placeOf(eventId) === place).length;
      return { eventIds, name: [...names].join(', '), startsOn: day, games };
    }),
    eventOf: Int16Array.from(charts, ({ eventId }) => placeOf(eventId)),
  };
}
