export interface ReportVideo {
  readonly url: string;
  /** Where second 0 of the charted film is. */
  readonly offsetSeconds: number;
}

/** A coaching point as it was at a revision. */
export interface PointText {
  readonly text: string;
  /** A member, or "former member". */
  readonly writtenBy: string;
  /** ISO 8601 instant. */
  readonly writtenAt: string;
}

/**
 * What a frozen report's ids stand for at the time of reading and under the reader's rights. Each answers null where
 * the reader may not know; the text then says so in its place.
 */
export interface ReportNames {
  player(playerId: string): string | null;
  event(eventId: string): string | null;
  game(gameId: string): string | null;
  /** The video of the chart's game, or null. */
  video(chartId: string): ReportVideo | null;
  /** Null once the point is gone, and for whoever is not of the clan. */
  coachingPoint(pointId: string, revision: number): PointText | null;
}

export const WITHHELD = 'name withheld';
/** Instead of a game. */
export const WITHHELD_GAME = 'a game you may not see';
