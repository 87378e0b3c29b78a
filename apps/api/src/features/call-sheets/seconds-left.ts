import type { CountingChart } from '../charts/charts.service.js';

/** The usual length of a quarter in an event's charted games, in seconds; 0 where none is noted. */
export function quarterSeconds(charts: readonly CountingChart[], eventId: string): number {
  const minutes = charts.flatMap((chart) => (chart.eventId === eventId ? (chart.quarterMinutes ?? []) : [])).sort();
  return 60 * (minutes[Math.floor(minutes.length / 2)] ?? 0);
}
