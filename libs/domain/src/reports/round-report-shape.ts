import type { DimensionName } from '../tendencies/dimension-names.js';
import type { Side } from '../tendencies/tendency-plays.js';
import type { ReportAnswers } from './answers/report-answers-shape.js';
import type { AttachedPoint } from './coaching/attached-point.js';
import type { ReportHabits } from './habits/habits-shape.js';
import type { NextOpponents } from './next-opponents-shape.js';
import type { ForecastTable, PredictedTable } from './predictions/predictions-shape.js';
import type { ReportInterval, ReportPlay } from './report-play.js';

/** 2 since reports say what gives a player away, what follows what and what changed. */
export const ROUND_REPORT_FORMAT = 2;

// The smallest shapes stand apart, since the habits' shapes are made of them too.
export type { ReportInterval, ReportPlay };

/** A share and all that a reader needs to weigh it. */
export interface ShareClaim {
  /** The same wherever the claim stands in the report, and whenever the report is made again from the same input. */
  readonly id: string;
  readonly side: Side;
  readonly situation: string;
  readonly dimension: DimensionName;
  readonly dimensionLabel: string;
  readonly valueKey: string;
  readonly termId: number | null;
  readonly label: string;
  readonly count: number;
  /** Plays on which the dimension was known. */
  readonly known: number;
  /** Plays of the situation. */
  readonly snaps: number;
  /** Games in which it was seen. */
  readonly games: number;
  /** Games in which the situation occurred. */
  readonly situationGames: number;
  readonly share: number;
  /** Wilson interval of the raw share. */
  readonly interval: ReportInterval;
  readonly shrunkShare: number | null;
  readonly shrunkInterval: ReportInterval | null;
  readonly fieldShare: number | null;
  readonly fieldKnown: number;
  /** The field's share lies outside the raw interval while the shrunk one still holds it. */
  readonly conflict: boolean;
  readonly plays: readonly ReportPlay[];
}

/** How some plays ended; for a defense, how the offenses against it fared. */
export interface ResultClaim {
  readonly id: string;
  readonly side: Side;
  readonly situation: string;
  /** Null where the claim is about the situation as a whole. */
  readonly dimension: DimensionName | null;
  readonly dimensionLabel: string | null;
  readonly label: string;
  readonly termId: number | null;
  readonly successes: number;
  readonly trials: number;
  readonly rate: number;
  readonly interval: ReportInterval;
  readonly fieldRate: number | null;
  readonly fieldTrials: number;
  readonly yardsMean: number | null;
  readonly yardsPlays: number;
  readonly explosiveCount: number | null;
  readonly explosivePlays: number;
  /** Every play with a result: first those that succeeded, as many as `successes` says. */
  readonly plays: readonly ReportPlay[];
}

export interface SideReport {
  readonly side: Side;
  readonly snaps: number;
  readonly games: number;
  /** What is done most over all snaps. */
  readonly mostUsed: readonly ShareClaim[];
  /** What is done most in each situation. */
  readonly bySituation: readonly SituationReport[];
  /** What stands furthest off the field; established first. */
  readonly standsOut: readonly StandsOut[];
  readonly strong: readonly ResultClaim[];
  readonly weak: readonly ResultClaim[];
  /** Absent where nothing is known, and in reports that were frozen before there was one. */
  readonly callGrid?: CallGrid;
}

/** Situations against what was called in them. */
export interface CallGrid {
  readonly dimension: DimensionName;
  readonly dimensionLabel: string;
  readonly columns: readonly { readonly valueKey: string; readonly label: string }[];
  /** All snaps first. */
  readonly rows: readonly CallGridRow[];
}

export interface CallGridRow {
  readonly situation: string;
  readonly label: string;
  readonly snaps: number;
  /** Plays on which the call is known, >= 1; the counts of the cells add up to it. */
  readonly known: number;
  /** One a column. */
  readonly cells: readonly CallGridCell[];
}

export interface CallGridCell {
  /** The id of the claim that says the same, where one does. */
  readonly id: string;
  readonly count: number;
  readonly plays: readonly ReportPlay[];
}

export interface SituationReport {
  readonly situation: string;
  readonly label: string;
  readonly snaps: number;
  readonly claims: readonly ShareClaim[];
  readonly result: ResultClaim | null;
}

export interface StandsOut {
  readonly claim: ShareClaim;
  /** More or less often than the field. */
  readonly direction: 'more' | 'less';
  /** Posterior probability of standing off the field by more than the settings' margin, in that direction. */
  readonly certainty: number;
  /** False: a lead, not proven on this sample. */
  readonly established: boolean;
}

/** A play to watch, and why. */
export interface FilmPick {
  readonly play: ReportPlay;
  readonly gameId: string;
  /** Second of the game's video. */
  readonly second: number;
  /** Claims that the play is evidence of, the weightiest first. */
  readonly claimIds: readonly string[];
  readonly reason: string;
}

export interface KnownField {
  readonly side: Side;
  readonly dimension: DimensionName;
  readonly label: string;
  readonly known: number;
  readonly snaps: number;
  /** Whether knowing it goes with how the play ended. */
  readonly goesWithResult: boolean;
}

export interface ThinSituation {
  readonly side: Side;
  readonly situation: string;
  readonly label: string;
  readonly snaps: number;
}

/** A chart that the report was made from. */
export interface ReportChart {
  readonly chartId: string;
  readonly gameId: string;
  readonly revision: number;
  /** ISO 8601 date of the game, or null where it is not known. */
  readonly playedOn: string | null;
  readonly importance: string | null;
  readonly rulesVersion: string | null;
}

export interface ReportSample {
  readonly charts: readonly ReportChart[];
  readonly games: number;
  readonly offenseSnaps: number;
  readonly defenseSnaps: number;
  readonly newestGame: string | null;
  readonly rulesVersions: readonly string[];
  readonly knownOn: readonly KnownField[];
}

/** A piece of film that nobody charted yet. */
export interface FilmToChart {
  readonly gameId: string;
  /** Which snaps, in words: `third and fourth downs`. */
  readonly what: string;
  /** The side of the opponent that it shows. */
  readonly side: Side;
  readonly fields: 'key fields' | 'all fields';
  /** Expected. */
  readonly plays: number;
  readonly minutes: number;
}

export interface RoundReportSettings {
  /** Of every interval in the report, in (0, 1). */
  readonly confidence: number;
  /** A share stands out when it is off the field by more than this, in (0, 1). */
  readonly margin: number;
  /** Posterior probability from which standing out counts as established, in (0.5, 1). */
  readonly certainty: number;
  readonly filmLength: number;
  /** Fewer snaps than this make a situation thin. */
  readonly thinSnaps: number;
  /** Situations, zones and success thresholds in force, as the clan has them; kept for the record. */
  readonly football: JsonValue;
}

export type JsonValue = string | number | boolean | null | readonly JsonValue[] | { readonly [key: string]: JsonValue };

/** Frozen as it is: numbers and ids, never a handle, no typed array, no NaN. */
export interface RoundReport {
  /** Reports of the first format are still read; they have no habits. */
  readonly formatVersion: 1 | typeof ROUND_REPORT_FORMAT;
  readonly codeVersion: string;
  readonly seed: number;
  readonly settings: RoundReportSettings;
  readonly playerId: string;
  readonly eventId: string | null;
  readonly round: string | null;
  /** ISO 8601 instant, given by the caller. */
  readonly madeAt: string;
  /** ISO 8601 date: only what was played before that day is in the report. Absent where everything is. */
  readonly asOf?: string;
  readonly sample: ReportSample;
  readonly offense: SideReport;
  readonly defense: SideReport;
  /** Absent in reports of the first format. */
  readonly habits?: ReportHabits;
  /** How the player's calls were answered, and how to mix ours; absent in older reports. */
  readonly answers?: ReportAnswers;
  /** Coaching points of the clan's where they belong; absent where there is none, and in older reports. */
  readonly coachingPoints?: readonly AttachedPoint[];
  /** Who is next, certain or by odds; absent where the opponent was named by hand, and in older reports. */
  readonly next?: NextOpponents;
  /** The probabilities that its report card judges; absent in older reports. */
  readonly predicted?: readonly PredictedTable[];
  /** What the forecast of next calls said, for its card too; absent where none could be fitted, and in older reports. */
  readonly forecast?: readonly ForecastTable[];
  readonly film: readonly FilmPick[];
  readonly thinSituations: readonly ThinSituation[];
  /** Film of theirs that is not charted, what would teach most first; absent where there is none, and in older reports. */
  readonly chartNext?: readonly FilmToChart[];
}
