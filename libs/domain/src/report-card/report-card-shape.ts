import type { CalibrationLine } from '../forecast/scoring/calibration-line.js';
import type { Calibration } from '../forecast/scoring/calibration.js';
import type { ReportInterval } from '../reports/report-play.js';
import type { DimensionName } from '../tendencies/dimension-names.js';
import type { Side } from '../tendencies/tendency-plays.js';
import type { ForetoldBy } from './foretold-plays.js';

/** How a frozen report did against what was charted afterwards. Plain data; every list is empty while nothing is. */
export interface ReportCard {
  /** What is missing before anything can be judged; null where there is something. */
  readonly awaited: string | null;
  /** What one may conclude and what not; said first wherever the card is read. */
  readonly verdict: string;
  /** Games that are judged, and the opponent's counting snaps in them by side. */
  readonly games: readonly string[];
  readonly snaps: Readonly<Record<Side, number>>;
  /** Which of the report's probabilities are judged, and why no others; null where it keeps none. */
  readonly judged: string | null;
  /** By what is foretold, the forecast before the printed shares. */
  readonly scores: readonly TableScore[];
  readonly tells: readonly JudgedTell[];
  readonly answers: readonly JudgedAnswer[];
  /** Null where the own call log says nothing of these games. */
  readonly planned: PlannedAgainstCalled | null;
  readonly apart: PlayedApart;
  readonly calibration: PooledCalibration;
}

/** A frozen table against what was called. */
export interface TableScore {
  readonly side: Side;
  readonly dimension: DimensionName;
  readonly label: string;
  readonly by: ForetoldBy;
  /** Counting plays on which it is known, of those that count. */
  readonly plays: number;
  readonly snaps: number;
  readonly report: MeanScores;
  /** Of the field's shares; beside a forecast, of the forecast of a player of whom nothing is known. */
  readonly baseline: MeanScores;
  /** The report's less the baseline's: below 0 the report told more. */
  readonly logLossDifference: Difference;
  readonly brierDifference: Difference;
  readonly words: string;
}

export interface MeanScores {
  /** Mean, in nats. */
  readonly logLoss: number;
  readonly brier: number;
}

export interface Difference {
  readonly mean: number;
  /** Null where there is only one cluster to draw from. */
  readonly interval: ReportInterval | null;
  /** What was drawn anew as a whole. */
  readonly drawn: 'games' | 'drives' | 'plays';
  readonly clusters: number;
}

export interface JudgedTell {
  /** Of the claim in the report. */
  readonly id: string;
  readonly side: Side;
  readonly label: string;
  readonly direction: 'more' | 'less';
  /** What the report counted, with the cue and without. */
  readonly predicted: { readonly count: number; readonly known: number };
  readonly without: { readonly count: number; readonly known: number };
  /** What these games showed with the cue. */
  readonly count: number;
  readonly known: number;
  readonly interval: ReportInterval | null;
  readonly outcome: 'held' | 'broke' | 'too few to say' | 'cue not seen';
  readonly words: string;
}

export interface JudgedAnswer {
  readonly id: string;
  readonly side: Side;
  /** Of the opponent. */
  readonly call: string;
  readonly answer: string;
  readonly installed: boolean;
  /** Times that the call came with what answered it seen, and those that met this answer. */
  readonly chances: number;
  readonly plays: number;
  /** Points added a play, from the side with the ball; null where none is known. */
  readonly points: number | null;
  readonly pointsPlays: number;
  readonly successes: number;
  readonly trials: number;
  readonly expected: { readonly points: number; readonly interval: ReportInterval };
  readonly words: string;
}

export interface PlannedAgainstCalled {
  /** Snaps that were planned and charted. */
  readonly snaps: number;
  readonly sides: readonly PlannedSide[];
}

export interface PlannedSide {
  /** Ours. */
  readonly side: Side;
  readonly asMeant: PlannedCount;
  readonly otherwise: PlannedCount;
  /** The chart does not say what was meant. */
  readonly notSeen: number;
  readonly words: string;
}

export interface PlannedCount {
  readonly plays: number;
  /** From our view. */
  readonly successes: number;
  readonly trials: number;
}

/** What no call share says. */
export interface PlayedApart {
  readonly fouls: readonly CountedLine[];
  readonly kicks: readonly CountedLine[];
  readonly decisions: readonly CountedLine[];
}

export interface CountedLine {
  readonly whose: 'opponent' | 'ours';
  readonly count: number;
  readonly words: string;
}

export interface PooledCalibration {
  readonly reports: number;
  /** Those of them that are judged by their forecast; the others keep none, and are judged by their printed shares. */
  readonly byForecast: number;
  readonly games: number;
  readonly plays: number;
  /** Null without a play. */
  readonly calibration: Calibration | null;
  readonly line: CalibrationLine | null;
  readonly words: string;
}
