import type { ScoredPlays } from '../forecast/scoring/forecast-scores.js';
import { forecastScores, playLosses, playSquares } from '../forecast/scoring/forecast-scores.js';
import { lossDifference } from '../forecast/scoring/loss-difference.js';
import type { ForecastTable, PredictedTable } from '../reports/predictions/predictions-shape.js';
import { seededRandom } from '../statistics/seeded-random.js';
import { foretoldPlays } from './foretold-plays.js';
import { clustersOf, opponentSnaps, type MatchPlays } from './match-plays.js';
import type { Difference, TableScore } from './report-card-shape.js';
import { scoreWords } from './words.js';

const RESAMPLES = 2000;

/**
 * Log loss and Brier score of a frozen table beside its baseline's, with percentile bootstrap intervals of the paired
 * differences. Null where no play can be scored.
 *
 * @param confidence - in (0, 1)
 * @param seed       - of the resamples, so that the same plays give the same card
 * @throws DomainError `stats.invalid_probability`
 * @see Brier (1950), Mon. Weather Rev. 78, 1–3; Good (1952), J. R. Stat. Soc. B 14, 107–114
 */
export function scoreTable(
  table: PredictedTable | ForecastTable,
  match: MatchPlays,
  confidence: number,
  seed: number,
): TableScore | null {
  const { by, places, report, baseline } = foretoldPlays(table, match);
  if (places.length === 0) return null;
  const { drawn, cluster } = clustersOf(match, places);
  const difference = (lossOf: (scored: ScoredPlays) => Float64Array): Difference => {
    const [ours, theirs] = [lossOf(report), lossOf(baseline)];
    const of = lossDifference(ours, theirs, cluster, confidence, RESAMPLES, seededRandom(seed));
    // One cluster drawn again and again is no interval.
    const interval = of.games < 2 ? null : { lower: of.interval.lower, upper: of.interval.upper };
    return { mean: of.difference, interval, drawn, clusters: of.games };
  };
  const means = (scored: ScoredPlays): TableScore['report'] => {
    const { logLoss, brier } = forecastScores(scored);
    return { logLoss, brier };
  };
  const { side, dimension, label } = table;
  const score = {
    ...{ side, dimension, label, by },
    plays: places.length,
    snaps: opponentSnaps(match, side).length,
    report: means(report),
    baseline: means(baseline),
    logLossDifference: difference(playLosses),
    brierDifference: difference(playSquares),
  };
  return { ...score, words: scoreWords(score) };
}
