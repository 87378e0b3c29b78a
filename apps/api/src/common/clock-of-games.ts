import { UNKNOWN_NUMBER, type PlayColumns } from '#domain/charting/play-columns.js';
import { clockSituationCodes, DEFAULT_CLOCK_SETTINGS } from '#domain/football/clock-situations.js';
import type { Classification } from '#domain/football/situations.js';

const SECONDS_A_MINUTE = 60;

/** A chart with the length of its game's quarters, where that is known. */
interface TimedChart {
  readonly chartId: string;
  readonly quarterMinutes: number | null;
}

/**
 * The situation by clock and score of plays from games whose quarters have different lengths.
 *
 * @param charts - of every game of any batch that will be asked about
 */
export function clockOfGames(charts: readonly TimedChart[]): (plays: PlayColumns) => Classification {
  const minutesOf = new Map(charts.map(({ chartId, quarterMinutes }) => [chartId, quarterMinutes]));
  return (plays) => {
    const seen = minutesSeen(plays);
    const minutes = plays.charts.map(({ chartId }, chart) => minutesOf.get(chartId) ?? seen[chart] ?? 1);
    const lengths = [...new Set(minutes)];
    const reads = lengths.map((length) =>
      clockSituationCodes(plays, DEFAULT_CLOCK_SETTINGS, length * SECONDS_A_MINUTE),
    );
    const readOf = minutes.map((length) => reads[lengths.indexOf(length)]);
    return {
      codes: Int8Array.from(plays.chartIndex, (chart, play) => readOf[chart]?.codes[play] ?? -1),
      names: reads[0]?.names ?? [],
    };
  };
}

/** A quarter is at least as long as the most that its clock was seen to show; whole minutes, as games are set. */
function minutesSeen(plays: PlayColumns): number[] {
  const clocks = plays.number('clockSeconds').values;
  const most = new Int16Array(plays.charts.length).fill(1);
  for (let play = 0; play < plays.count; play += 1) {
    const chart = plays.chartIndex[play] ?? 0;
    const clock = clocks[play] ?? UNKNOWN_NUMBER;
    if (clock > (most[chart] ?? 0)) most[chart] = clock;
  }
  return Array.from(most, (seconds) => Math.ceil(seconds / SECONDS_A_MINUTE));
}
