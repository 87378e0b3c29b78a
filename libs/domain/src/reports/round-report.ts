import type { Profile } from '../tendencies/profile-shape.js';
import type { TendencyPlays } from '../tendencies/tendency-plays.js';
import type { ReportChart, RoundReport, RoundReportSettings } from './round-report-shape.js';

/** A side's profile and the plays it was computed from. */
export interface ProfiledSide {
  readonly facts: TendencyPlays;
  readonly profile: Profile;
}

export interface RoundReportInput {
  readonly playerId: string;
  readonly eventId: string | null;
  readonly round: string | null;
  /** ISO 8601 instant; the domain has no clock. */
  readonly madeAt: string;
  readonly codeVersion: string;
  /** Of whatever is drawn at random for the report; kept with it. */
  readonly seed: number;
  readonly settings: RoundReportSettings;
  readonly charts: readonly ReportChart[];
  readonly offense: ProfiledSide;
  readonly defense: ProfiledSide;
}

/** Assembles the scouting report of one player for one round, as plain data. */
export declare function assembleRoundReport(input: RoundReportInput): RoundReport;
