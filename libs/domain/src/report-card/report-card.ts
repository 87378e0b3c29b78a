import type { RoundReport } from '../reports/round-report-shape.js';
import { judgeAnswers } from './judge-answers.js';
import { judgeTells } from './judge-tells.js';
import { matchPlays, opponentSnaps, type MatchPlays } from './match-plays.js';
import { plannedAgainstCalled, type PlannedCall } from './planned-calls.js';
import { playedApart } from './played-apart.js';
import { pooledCalibration, type PooledReport } from './pooled-calibration.js';
import type { ReportCard } from './report-card-shape.js';
import { scoreTable } from './score-table.js';
import { awaitedWords, judgedWords, verdictWords } from './words.js';

export interface ReportCardInput {
  readonly report: RoundReport;
  /** Everything that the reader may see. */
  readonly batch: Pick<MatchPlays, 'facts' | 'games' | 'vocabulary'>;
  /** Places in the batch of the games that it is judged by: see `judgedGames`. */
  readonly charts: readonly number[];
  /** Our own call log of these games. */
  readonly planned: readonly PlannedCall[];
  /** All reports of the clan that keep their probabilities, the newest first. */
  readonly pool: readonly PooledReport[];
  /** Of every interval, in (0, 1). */
  readonly confidence: number;
  readonly seed: number;
}

/**
 * How a frozen report did. It is read off the report as it was kept and off the plays as they are charted now; nothing is
 * computed of the opponent anew, so that later games never change what was foretold.
 *
 * @throws DomainError `stats.invalid_probability`
 */
export function reportCard(input: ReportCardInput): ReportCard {
  const { report, batch, charts, confidence, seed } = input;
  const match = matchPlays({ ...batch, opponent: report.playerId }, charts);
  const { predicted = [], forecast = [] } = report;
  const tables = predicted.flatMap((table) => [
    ...forecast.filter(({ dimension }) => dimension === table.dimension),
    table,
  ]);
  const games = charts.flatMap((chart) => batch.games[chart]?.gameId ?? []);
  return {
    awaited: games.length === 0 ? awaitedWords(report.predicted !== undefined) : null,
    verdict: verdictWords(games.length),
    games,
    snaps: { offense: opponentSnaps(match, 'offense').length, defense: opponentSnaps(match, 'defense').length },
    judged: games.length === 0 || tables.length === 0 ? null : judgedWords(predicted, report.forecast ?? null),
    scores: tables.flatMap((table) => scoreTable(table, match, confidence, seed) ?? []),
    tells: games.length === 0 ? [] : judgeTells(report, match, confidence),
    answers: games.length === 0 ? [] : judgeAnswers(report, match),
    planned: plannedAgainstCalled(match, input.planned),
    apart: playedApart(match),
    calibration: pooledCalibration(input.pool, batch, confidence, seed),
  };
}
