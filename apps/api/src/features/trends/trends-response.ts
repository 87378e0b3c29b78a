import { TREND_DIMENSIONS } from '#domain/trends/trend-dimensions.js';
import { spreadResultWords, trendWords } from '#domain/trends/trend-words.js';
import type { Trend } from '#domain/trends/trends.js';
import type { Side, TendencyPlays } from '#domain/tendencies/tendency-plays.js';
import { interval, rounded, roundedP, value } from '../../common/figures.js';
import { usageResponse } from '../../common/event-usage.js';
import { playReference } from '../../common/play-reference.dto.js';
import type { CountingChart } from '../charts/charts.service.js';
import type { FirstSeenResponse, TrendResponse } from './trends.dto.js';

/** What trends were computed from, for the words around them. */
export interface TrendSource {
  readonly facts: TendencyPlays;
  readonly charts: readonly CountingChart[];
  /** Handle of whoever a play shows, null where it is withheld. */
  readonly handleOf: (play: number) => string | null;
}

export function trendResponse(trend: Trend, side: Side, source: TrendSource): TrendResponse {
  const { dimension, verdict, test, change, users, byEvent } = trend;
  const parts = TREND_DIMENSIONS[side].find(({ name }) => name === dimension)?.parts ?? [];
  const isFound = verdict === 'rising' || verdict === 'falling';
  return {
    dimension,
    parts: trend.value.map((part, place) => ({ dimension: parts[place] ?? dimension, ...value(part) })),
    verdict,
    words: trendWords(trend),
    results: spreadResultWords(trend),
    test: {
      z: rounded(test.z),
      pValue: roundedP(test.pValue),
      adjusted: trend.adjusted === null ? null : roundedP(trend.adjusted),
      asIndependentPlays: rounded(test.armitage.z),
    },
    change: { share: rounded(change.share), interval: interval(change.interval) },
    users,
    firstSeen: firstSeen(trend, source),
    byEvent: byEvent.map((usage) => usageResponse(usage, source.facts, isFound)),
  };
}

/** Its first play in the earliest game; games without a day come last. */
function firstSeen({ uses }: Trend, { facts, charts, handleOf }: TrendSource): FirstSeenResponse | null {
  const dayOf = (play: number): string => charts[facts.plays.chartIndex[play] ?? -1]?.playedOn ?? '9999-12-31';
  const first = uses.reduce<number | null>(
    (earliest, play) => (earliest === null || dayOf(play) < dayOf(earliest) ? play : earliest),
    null,
  );
  if (first === null) return null;
  return {
    handle: handleOf(first),
    playedOn: charts[facts.plays.chartIndex[first] ?? -1]?.playedOn ?? null,
    play: playReference(facts.plays, first),
  };
}
