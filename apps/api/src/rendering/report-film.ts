import type { FilmPick, ReportPlay, RoundReport } from '#domain/reports/round-report-shape.js';
import { clockWords, webAddress } from './plain-words.js';
import type { ReportNames, ReportVideo } from './report-names.js';

/** A chart as it stands when the report is read. */
export interface ChartFilm {
  /** Raised with every change since the report was made. */
  readonly revision: number;
  readonly video: ReportVideo | null;
}

/** Where the plays of a report can be seen, by the reader's rights. */
export interface ReportFilm {
  /** Null where the reader may not see the chart, or where it is gone. */
  chart(chartId: string): ChartFilm | null;
  /** Second of the charted film, or null where none was noted. */
  second(play: ReportPlay): number | null;
}

/** A place on film. */
export interface FilmPlace {
  /** Second of the video that `address` names; of the charted film where there is no address. */
  readonly second: number;
  /** "7:05" */
  readonly at: string;
  /** Opens the video there, or null without one. */
  readonly address: string | null;
}

/** @returns null where no second was noted */
export function filmPlace(film: ReportFilm, play: ReportPlay, charted = film.second(play)): FilmPlace | null {
  if (charted === null) return null;
  return placeIn(film.chart(play.chartId)?.video ?? null, charted);
}

/** Where a second of the charted film is in its video. */
export function placeIn(video: ReportVideo | null, charted: number): FilmPlace {
  const second = Math.max(0, charted + (video?.offsetSeconds ?? 0));
  return { second, at: clockWords(second), address: video === null ? null : momentAddress(video.url, second) };
}

/**
 * The address of a second in a video. A fragment that is there already stays: of several times the last one counts.
 *
 * @returns null for an address that is not of the web
 * @see W3C Media Fragments URI 1.0, sections 4.2.1 (temporal dimension, `t=120`) and 5.1.1 (name-value pairs)
 */
export function momentAddress(url: string, second: number): string | null {
  const address = webAddress(url);
  if (address === null) return null;
  const separator = !address.includes('#') ? '#' : address.endsWith('#') ? '' : '&';
  return `${address}${separator}t=${second}`;
}

/** A play to watch, as a reader or a program follows it. */
export interface FilmEntry extends FilmPlace {
  /** 1 for what to watch first. */
  readonly rank: number;
  readonly gameId: string;
  /** Null where the reader may not know the game. */
  readonly game: string | null;
  readonly chartId: string;
  readonly playNumber: number;
  readonly reason: string;
  readonly claimIds: readonly string[];
}

/** The plays to watch, in the order in which to watch them. */
export function filmEntries({ film: picks }: RoundReport, names: ReportNames, film: ReportFilm): FilmEntry[] {
  return picks.flatMap((pick, at) => {
    const found = filmPlace(film, pick.play, pick.second);
    return found === null ? [] : [{ ...found, ...entryOf(pick, at + 1, names) }];
  });
}

function entryOf(
  { play, gameId, reason, claimIds }: FilmPick,
  rank: number,
  names: ReportNames,
): Omit<FilmEntry, keyof FilmPlace> {
  return { rank, gameId, game: names.game(gameId), ...play, reason, claimIds };
}

/** How a report numbers its games: in the order of its charts. */
export function gameNumbers(charts: readonly { readonly gameId: string }[]): ReadonlyMap<string, number> {
  return new Map([...new Set(charts.map(({ gameId }) => gameId))].map((gameId, at) => [gameId, at + 1]));
}
