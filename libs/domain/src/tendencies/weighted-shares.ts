import type { Tallies } from './value-tallies.js';

export interface WeightedShares {
  /** One a value; 0 where nothing is known. */
  readonly shares: Float64Array;
  /** Kish's effective number of known plays: (Σw)² / Σw². */
  readonly effectiveKnown: number;
}

/**
 * Shares of the values over the known plays.
 *
 * @param tallies - unweighted counts of these plays
 * @param places  - places of the plays in the batch
 * @param codes   - the dimension's code of each play of the batch
 * @param weights - one a play of the batch, ≥ 0; null counts each play once
 * @see Kish (1965), Survey Sampling, 11.7
 */
export function weightedShares(
  tallies: Tallies,
  places: Int32Array,
  codes: Int16Array,
  weights: Float64Array | null,
): WeightedShares {
  const shares = new Float64Array(tallies.counts.length);
  if (weights === null) {
    if (tallies.known > 0) tallies.counts.forEach((count, value) => (shares[value] = count / tallies.known));
    return { shares, effectiveKnown: tallies.known };
  }
  let sum = 0;
  let squares = 0;
  for (const play of places) {
    const code = codes[play] ?? -1;
    if (code < 0) continue;
    const weight = weights[play] ?? 0;
    shares[code] = (shares[code] ?? 0) + weight;
    sum += weight;
    squares += weight * weight;
  }
  if (sum === 0) return { shares, effectiveKnown: 0 };
  for (let value = 0; value < shares.length; value += 1) shares[value] = (shares[value] ?? 0) / sum;
  return { shares, effectiveKnown: (sum * sum) / squares };
}
