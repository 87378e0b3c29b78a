import type { CountingChart } from '../charts/charts.service.js';

/** How long a quarter is in an event. */
export interface QuarterLength {
  readonly seconds: number;
  /** Whether a charted game of the event notes it; else it is the archive's usual one. */
  readonly noted: boolean;
}

/** The usual length of a quarter in an event's charted games, in all games where none of them notes it; 0 where none does. */
export function quarterLength(charts: readonly CountingChart[], eventId: string): QuarterLength {
  const ofEvent = charts.filter((chart) => chart.eventId === eventId && chart.quarterMinutes !== null);
  const noted = ofEvent.length > 0;
  const minutes = (noted ? ofEvent : charts)
    .flatMap(({ quarterMinutes }) => quarterMinutes ?? [])
    .sort((one, other) => one - other);
  return { seconds: 60 * (minutes[Math.floor(minutes.length / 2)] ?? 0), noted };
}

/** Until a quarter ends that has so much on the clock now, and those after it up to a last one. */
export function secondsUntil(last: number, quarter: number, clockSeconds: number, { seconds }: QuarterLength): number {
  return clockSeconds + (last - quarter) * seconds;
}

/** What is believed of the clock: nothing in the last quarter, whose clock says it all. */
export function guessesOfQuarter(quarter: number, { noted }: QuarterLength): readonly string[] {
  return quarter < 4 && !noted ? ['how long a quarter is in this event'] : [];
}
