import type { ReportPlay } from '../report-play.js';

/**
 * A coaching point where it belongs in a report, by reference alone: what it said at that revision and who wrote it are
 * looked up when the report is read, so that a frozen report keeps no text of a member's and no name.
 */
export interface AttachedPoint {
  readonly pointId: string;
  readonly revision: number;
  readonly on: 'opponent' | 'call' | 'answer' | 'play';
  /** Of the answered call, the answer or the share that it stands beside; null for the opponent and for plays. */
  readonly claimId: string | null;
  /** Of that claim; null for the opponent and for plays. */
  readonly label: string | null;
  readonly play: ReportPlay | null;
}
