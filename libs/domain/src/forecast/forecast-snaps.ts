import type { PlayColumns } from '../charting/play-columns.js';
import type { Vocabulary } from '../charting/vocabulary.js';
import { calledCodes } from '../football/called.js';
import { countsForCalls } from '../football/counted-snaps.js';
import { DEFAULT_SUCCESS_THRESHOLDS, successCodes } from '../football/success.js';

/**
 * Snaps of whole games in the order in which they were played, what a forecast learns from. Every array has one entry a
 * play.
 */
export interface SnapFacts {
  readonly plays: PlayColumns;
  /** Number of the play's game, counted in time order from 0: never falls from one play to the next. */
  readonly game: Int32Array;
  /** Who has the ball, and who has not: a number for each player from 0, -1 where unknown. */
  readonly offense: Int32Array;
  readonly defense: Int32Array;
  /** 1 where the play counts for call shares: no kick, kneel, spike or try. */
  readonly counts: Uint8Array;
  /** 0 run called, 1 pass called, -1 not known. */
  readonly called: Int8Array;
  /** 1 success, 0 failure, -1 not known. */
  readonly success: Int8Array;
  /** Length of a quarter: the longest clock that was seen, in whole minutes; the games of a batch are taken to be alike. */
  readonly quarterSeconds: number;
}

/** The same with the words that what is forecast is named by, for whoever is told. */
export interface ForecastSnaps extends SnapFacts {
  readonly vocabulary: Vocabulary;
  /** Number of the time at which the play's game was played, from 0: games of one time, such as one day, have one. */
  readonly round: Int32Array;
}

/** Adds what football says of each play. */
export function forecastSnaps(
  plays: PlayColumns,
  vocabulary: Vocabulary,
  who: Pick<ForecastSnaps, 'game' | 'round' | 'offense' | 'defense'>,
): ForecastSnaps {
  return {
    plays,
    vocabulary,
    ...who,
    counts: countsForCalls(plays, vocabulary),
    called: calledCodes(plays, vocabulary),
    success: successCodes(plays, vocabulary, DEFAULT_SUCCESS_THRESHOLDS),
    quarterSeconds: quarterLength(plays),
  };
}

/** See `SnapFacts.quarterSeconds`. */
export function quarterLength(plays: PlayColumns): number {
  const longest = plays.number('clockSeconds').values.reduce((most, seconds) => Math.max(most, seconds), 60);
  return Math.ceil(longest / 60) * 60;
}

/** How many games there are. */
export function gameCount({ game }: Pick<SnapFacts, 'game'>): number {
  return game.length === 0 ? 0 : (game[game.length - 1] ?? 0) + 1;
}
