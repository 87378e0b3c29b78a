import type { Interval } from '../../statistics/interval.js';
import { wilsonIntervalWeighted } from '../../statistics/wilson-interval.js';

/** One game's plays of one period: how many did something, of how many known. */
export interface ClusterCount {
  readonly count: number;
  readonly known: number;
}

export interface EstimatedShare {
  readonly share: number;
  readonly interval: Interval;
}

/**
 * A share over games whose plans differ: Wilson's interval on the plays divided by the design effect, the variance
 * between games beside that of independent plays. The effect is never taken to be below 1, and a single game, which
 * cannot show it, is taken as it is.
 *
 * @param clusters   - games, at least one with known plays
 * @param confidence - in (0, 1)
 * @throws DomainError `stats.invalid_number`, `stats.invalid_probability`
 * @see Kish (1965), Survey Sampling, chapters 6 and 8 (ratio means, design effect)
 */
export function clusteredShare(clusters: readonly ClusterCount[], confidence: number): EstimatedShare {
  const seen = clusters.filter(({ known }) => known > 0);
  const known = seen.reduce((sum, cluster) => sum + cluster.known, 0);
  const share = seen.reduce((sum, { count }) => sum + count, 0) / known;
  const between = seen.reduce((sum, cluster) => sum + (cluster.count - share * cluster.known) ** 2, 0);
  const independent = known * share * (1 - share);
  const games = seen.length;
  const effect = games < 2 || independent === 0 ? 1 : Math.max(1, (between / independent) * (games / (games - 1)));
  return { share, interval: wilsonIntervalWeighted(share, known / effect, confidence) };
}

/**
 * First less second, from the two estimates' own intervals.
 *
 * @see Zou & Donner (2008), Stat. Med. 27, 1693–1702; Newcombe (1998), Stat. Med. 17, 873–890, method 10
 */
export function differenceOfEstimates(first: EstimatedShare, second: EstimatedShare): EstimatedShare {
  const share = first.share - second.share;
  return {
    share,
    interval: {
      lower: share - Math.hypot(first.share - first.interval.lower, second.interval.upper - second.share),
      upper: share + Math.hypot(first.interval.upper - first.share, second.share - second.interval.lower),
    },
  };
}

export function leavesOutZero({ interval }: EstimatedShare): boolean {
  return interval.lower > 0 || interval.upper < 0;
}
