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
 * How many times the variance between games is that of independent plays, over all shares of a mix and both periods
 * together: plans make the plays of a game alike whatever is counted, and few games cannot show for one share how much.
 * Never below 1.
 *
 * @param shares - of each share the games of one period
 * @see Rao & Scott (1981), J. Am. Stat. Assoc. 76, 221–230 (mean design effect); Kish (1965), Survey Sampling, chapters 6, 8
 */
export function meanDesignEffect(shares: readonly (readonly ClusterCount[])[]): number {
  let [between, independent] = [0, 0];
  for (const clusters of shares) {
    const { seen, known, share } = summed(clusters);
    if (seen.length < 2) continue;
    between += seen.reduce((sum, cluster) => sum + (cluster.count - share * cluster.known) ** 2, 0);
    independent += (known * share * (1 - share) * (seen.length - 1)) / seen.length;
  }
  return independent === 0 ? 1 : Math.max(1, between / independent);
}

/**
 * A share over games whose plans differ: Wilson's interval on the plays divided by the design effect.
 *
 * @param clusters   - games, at least one with known plays
 * @param effect     - as `meanDesignEffect`
 * @param confidence - in (0, 1)
 * @throws DomainError `stats.invalid_number`, `stats.invalid_probability`
 * @see Kish (1965), Survey Sampling, chapters 6 and 8 (ratio means, design effect)
 */
export function clusteredShare(clusters: readonly ClusterCount[], effect: number, confidence: number): EstimatedShare {
  const { known, share } = summed(clusters);
  return { share, interval: wilsonIntervalWeighted(share, known / effect, confidence) };
}

function summed(clusters: readonly ClusterCount[]): {
  readonly seen: readonly ClusterCount[];
  readonly known: number;
  readonly share: number;
} {
  const seen = clusters.filter(({ known }) => known > 0);
  const known = seen.reduce((sum, cluster) => sum + cluster.known, 0);
  return { seen, known, share: seen.reduce((sum, { count }) => sum + count, 0) / known };
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
