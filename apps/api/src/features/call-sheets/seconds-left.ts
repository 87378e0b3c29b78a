import type { CountingChart } from '../charts/charts.service.js';

/** The usual length of a quarter in an event's charted games, in seconds; 0 where none is noted. */
export function quarterSeconds(charts: readonly CountingChart[], eventId: string): number {
  const minutes = charts
    .flatMap((chart) => (chart.eventId === eventId ? (chart.quarterMinutes ?? []) : []))
    .sort((one, other) => one - other);
  return 60 * (minutes[Math.floor(minutes.length / 2)] ?? 0);
}

/** Until the end of the game, by the usual length of a quarter in the event's charted games. */
export function secondsOfGame(
  charts: readonly CountingChart[],
  {
    eventId,
    quarter,
    clockSeconds,
  }: { readonly eventId: string; readonly quarter: number; readonly clockSeconds: number },
): number {
  return clockSeconds + (4 - quarter) * quarterSeconds(charts, eventId);
}
