import type { RoundReport } from '../reports/round-report-shape.js';

/** What has to be known of a charted game to tell whether a report foretold it. */
export interface ChartedGame {
  readonly gameId: string;
  /** Identities. */
  readonly homePlayerId: string;
  readonly awayPlayerId: string;
  readonly eventId: string | null;
  /** ISO 8601 date, null where it is not known. */
  readonly playedOn: string | null;
}

/** The part of a report that says which games it is about. */
export type ForetellingReport = Pick<RoundReport, 'playerId' | 'eventId' | 'madeAt' | 'asOf'> & {
  readonly evidence: readonly { readonly gameId: string }[];
  /** Identity of the player for whom it was made; null where it was asked for by name alone. */
  readonly forPlayer: string | null;
};

/**
 * The games that a report is judged by, as places in `games`: of the opponent, not in the report's evidence, and either
 * the one that is asked for or those of its event from its day on, against the player for whom it was made where it was
 * made for one.
 *
 * @param gameId - the one to judge it by; null for those that follow from the report
 */
export function judgedGames(report: ForetellingReport, games: readonly ChartedGame[], gameId: string | null): number[] {
  const known = new Set(report.evidence.map((chart) => chart.gameId));
  const from = report.asOf ?? report.madeAt.slice(0, 10);
  return [...games.keys()].filter((place) => {
    const game = games[place];
    if (game === undefined || known.has(game.gameId)) return false;
    const others = [game.homePlayerId, game.awayPlayerId].filter((id) => id !== report.playerId);
    if (others.length !== 1) return false;
    if (gameId !== null) return game.gameId === gameId;
    return (
      (report.eventId === null || game.eventId === report.eventId) &&
      (report.forPlayer === null || others[0] === report.forPlayer) &&
      (game.playedOn === null || game.playedOn >= from)
    );
  });
}
