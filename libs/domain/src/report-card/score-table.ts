import type { ScoredPlays } from '../forecast/scoring/forecast-scores.js';
import { forecastScores, playLosses, playSquares } from '../forecast/scoring/forecast-scores.js';
import { lossDifference } from '../forecast/scoring/loss-difference.js';
import type { PredictedTable } from '../reports/predictions/predictions-shape.js';
import { seededRandom } from '../statistics/seeded-random.js';
import { readDimension } from '../tendencies/dimensions.js';
import { clustersOf, opponentSnaps, type MatchPlays } from './match-plays.js';
import type { Difference, TableScore } from './report-card-shape.js';
import { scoreWords } from './words.js';

/** The frozen probabilities of plays, the field's beside them, and what was called. */
export interface ForetoldPlays {
  /** Places of the plays on which the call is known. */
  readonly places: Int32Array;
  readonly report: ScoredPlays;
  readonly field: ScoredPlays;
}

const RESAMPLES = 2000;

/**
 * What a frozen table held of each play. A call that has no class of its own is any other; a situation that the table
 * does not have, or that is not known, is read off all snaps. A value outside a table of fixed words cannot be scored.
 */
export function foretoldPlays(table: PredictedTable, match: MatchPlays): ForetoldPlays {
  const { facts, vocabulary } = match;
  const read = readDimension(table.dimension, facts, vocabulary);
  const other = table.classes.findIndex(({ valueKey }) => valueKey === 'any other');
  const classOf = read.values.map(({ key }) => {
    const found = table.classes.findIndex(({ valueKey }) => valueKey === key);
    return found < 0 ? other : found;
  });
  const rowOf = new Map(table.rows.map((row) => [row.situation, row]));
  const outcomeOf = (play: number): number => classOf[read.codes[play] ?? -1] ?? -1;
  const places = opponentSnaps(match, table.side).filter((play) => outcomeOf(play) >= 0);
  const outcome = places.map(outcomeOf);
  const classes = table.classes.length;
  const probabilities = (of: 'shares' | 'fieldShares'): Float64Array => {
    const filled = new Float64Array(places.length * classes);
    places.forEach((play, at) => {
      const row = rowOf.get(facts.situationNames[facts.situation[play] ?? -1] ?? '') ?? table.rows[0];
      filled.set(row?.[of] ?? [], at * classes);
    });
    return filled;
  };
  return {
    places,
    report: { probabilities: probabilities('shares'), outcome, classes },
    field: { probabilities: probabilities('fieldShares'), outcome, classes },
  };
}

/**
 * Log loss and Brier score of a frozen table beside the field's, with percentile bootstrap intervals of the paired
 * differences. Null where no play can be scored.
 *
 * @param confidence - in (0, 1)
 * @param seed       - of the resamples, so that the same plays give the same card
 * @throws DomainError `stats.invalid_probability`
 * @see Brier (1950), Mon. Weather Rev. 78, 1–3; Good (1952), J. R. Stat. Soc. B 14, 107–114
 */
export function scoreTable(
  table: PredictedTable,
  match: MatchPlays,
  confidence: number,
  seed: number,
): TableScore | null {
  const { places, report, field } = foretoldPlays(table, match);
  if (places.length === 0) return null;
  const { drawn, cluster } = clustersOf(match, places);
  const difference = (lossOf: (scored: ScoredPlays) => Float64Array): Difference => {
    const [ours, theirs] = [lossOf(report), lossOf(field)];
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
    ...{ side, dimension, label },
    plays: places.length,
    snaps: opponentSnaps(match, side).length,
    report: means(report),
    field: means(field),
    logLossDifference: difference(playLosses),
    brierDifference: difference(playSquares),
  };
  return { ...score, words: scoreWords(score) };
}
