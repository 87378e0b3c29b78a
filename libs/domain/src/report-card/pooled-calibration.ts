import { DomainError } from '../domain-error.js';
import { calibrationLine, type CalibrationLine } from '../forecast/scoring/calibration-line.js';
import { calibrationOf } from '../forecast/scoring/calibration.js';
import type { ScoredPlays } from '../forecast/scoring/forecast-scores.js';
import type { ForecastTable, PredictedTable } from '../reports/predictions/predictions-shape.js';
import { seededRandom } from '../statistics/seeded-random.js';
import { judgedGames, type ForetellingReport } from './judged-games.js';
import { matchPlays, type MatchPlays } from './match-plays.js';
import { foretoldPlays, type ForetoldBy } from './foretold-plays.js';
import type { PooledCalibration } from './report-card-shape.js';
import { calibrationWords } from './words.js';

/** A frozen report with its probabilities. */
export interface PooledReport extends ForetellingReport {
  readonly predicted: readonly PredictedTable[];
  /** Null of a report that keeps none. */
  readonly forecast: readonly ForecastTable[] | null;
}

/**
 * Whether run and pass came as often as all these reports said: by their forecast, or their printed shares where they keep
 * none. A game that several reports on one player foretold counts
 * once, by the newest of them.
 *
 * @param reports - the newest first
 * @param batch   - the plays of every game that may be judged
 */
export function pooledCalibration(
  reports: readonly PooledReport[],
  batch: Pick<MatchPlays, 'facts' | 'games' | 'vocabulary'>,
  confidence: number,
  seed: number,
): PooledCalibration {
  const counted = new Set<string>();
  const parts: { readonly by: ForetoldBy; readonly scored: ScoredPlays; readonly game: Int32Array }[] = [];
  for (const report of reports) {
    const isCalled = ({ dimension }: Pick<PredictedTable, 'dimension'>): boolean => dimension === 'called';
    const table = report.forecast?.find(isCalled) ?? report.predicted.find(isCalled);
    if (table === undefined) continue;
    const charts = judgedGames(report, batch.games, null).filter(
      (place) => !counted.has(`${report.playerId} ${place}`),
    );
    for (const place of charts) counted.add(`${report.playerId} ${place}`);
    if (charts.length === 0) continue;
    const {
      by,
      places,
      report: scored,
    } = foretoldPlays(table, matchPlays({ ...batch, opponent: report.playerId }, charts));
    if (places.length > 0)
      parts.push({ by, scored, game: places.map((play) => batch.facts.plays.chartIndex[play] ?? -1) });
  }
  const scored: ScoredPlays = {
    probabilities: Float64Array.from(parts.flatMap((part) => [...part.scored.probabilities])),
    outcome: Int32Array.from(parts.flatMap((part) => [...part.scored.outcome])),
    classes: 2,
  };
  const game = Int32Array.from(parts.flatMap((part) => [...part.game]));
  const pooled = {
    reports: parts.length,
    byForecast: parts.filter(({ by }) => by === 'forecast').length,
    games: new Set(game).size,
    plays: game.length,
    calibration: game.length === 0 ? null : calibrationOf(scored, seededRandom(seed)),
    line: game.length === 0 ? null : lineOrNothing(scored, game, confidence),
  };
  return { ...pooled, words: calibrationWords(pooled) };
}

/** Few plays may be told apart without fault, and then no line is the best; one game has no spread between games. */
function lineOrNothing(scored: ScoredPlays, game: Int32Array, confidence: number): CalibrationLine | null {
  if (new Set(game).size < 2) return null;
  try {
    return calibrationLine(scored, game, confidence);
  } catch (error) {
    if (error instanceof DomainError && error.code === 'stats.no_convergence') return null;
    throw error;
  }
}
