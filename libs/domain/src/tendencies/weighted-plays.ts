import type { ValueCounts } from './value-tallies.js';

export interface WeightedPlays {
  /** Known plays that each value's share is worth: whole numbers without weights. */
  readonly plays: ArrayLike<number>;
  /** Kish's effective number of known plays, which these add up to: (Σw)² / Σw². */
  readonly effectiveKnown: number;
}

/**
 * The values' shares of the known plays, as numbers of plays.
 *
 * @param counted - how often these plays used each value
 * @param places  - places of the plays in the batch
 * @param codes   - the dimension's code of each play of the batch
 * @param weights - one a play of the batch, ≥ 0; null counts each play once
 * @see Kish (1965), Survey Sampling, 11.7
 */
export function weightedPlays(
  { counts, known }: ValueCounts,
  places: Int32Array,
  codes: Int16Array,
  weights: Float64Array | null,
): WeightedPlays {
  if (weights === null) return { plays: counts, effectiveKnown: known };
  const plays = new Float64Array(counts.length);
  // Weights of games long ago have squares that are no number; only their ratios matter.
  let largest = 0;
  for (const play of places) if ((codes[play] ?? -1) >= 0) largest = Math.max(largest, weights[play] ?? 0);
  if (largest === 0) return { plays, effectiveKnown: 0 };
  let sum = 0;
  let squares = 0;
  for (const play of places) {
    const code = codes[play] ?? -1;
    if (code < 0) continue;
    const weight = (weights[play] ?? 0) / largest;
    plays[code] = (plays[code] ?? 0) + weight;
    sum += weight;
    squares += weight * weight;
  }
  return { plays: plays.map((weight) => (weight * sum) / squares), effectiveKnown: (sum * sum) / squares };
}
