import { starterVocabulary } from '../../charting/vocabulary.js';
import { trends, type Trend } from '../trends.js';
import { trendLeague, type TrendLeagueSettings } from './trend-league.js';

// Test support: what the finder of trends does on many leagues, small in the tests and large in the bench.

export interface TrendFigures {
  readonly leagues: number;
  /** Leagues in which the planted call was found to rise. */
  readonly planted: number;
  /** Leagues in which anything else was found. */
  readonly others: number;
  /** Leagues in which the heavy user's call was found. */
  readonly heavy: number;
  /** Leagues in which plays taken as independent would have found something that was not planted. */
  readonly naive: number;
  /** Calls by themselves put to the test, over all leagues, and those with a p-value of at most `SMALL`. */
  readonly tested: number;
  readonly small: number;
}

/** Near the p-value that one call among three dozen needs. */
export const SMALL = 0.005;

/** @param firstSeed - leagues take this seed and those after it */
export function trendFigures(
  settings: Omit<TrendLeagueSettings, 'seed'>,
  leagues: number,
  firstSeed: number,
): TrendFigures {
  const figures = { leagues, planted: 0, others: 0, heavy: 0, naive: 0, tested: 0, small: 0 };
  for (let seed = firstSeed; seed < firstSeed + leagues; seed += 1) {
    const league = trendLeague({ ...settings, seed });
    const result = trends({
      ...league,
      side: 'offense',
      vocabulary: starterVocabulary(),
      confidence: 0.9,
      seed: seed + 1_000_000,
    });
    const found = result.trends.filter(({ verdict }) => verdict === 'rising' || verdict === 'falling');
    const has = (key: string) => (trend: Trend) => trend.value.some((part) => part.key === key);
    const isPlanted = has(league.plantedKey);
    if (found.some((trend) => trend.verdict === 'rising' && trend.dimension === 'concept' && isPlanted(trend)))
      figures.planted += 1;
    if (found.some((trend) => !isPlanted(trend))) figures.others += 1;
    if (found.some(has(league.heavyKey))) figures.heavy += 1;
    const singles = result.trends.filter(({ value }) => value.length === 1);
    figures.tested += singles.length;
    figures.small += singles.filter(({ test }) => test.pValue <= SMALL).length;
    const isNaive = ({ test }: Trend): boolean => test.armitage.pValue < 0.1 / result.tested;
    if (result.trends.some((trend) => isNaive(trend) && !isPlanted(trend))) figures.naive += 1;
  }
  return figures;
}
