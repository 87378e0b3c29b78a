import type { FeatureColumn } from '../features/feature-column.js';

/** Bin 0 holds what is unknown; at most this many bins a feature, so that a bin fits one byte and a histogram the cache. */
export const MOST_BINS = 64;
export const UNKNOWN_BIN = 0;

/** How one feature's values fall into bins. */
export interface Binning {
  readonly isCategory: boolean;
  /** Numbers: value v falls into the first bin whose upper edge is not below v. Categories: code of each bin from 1. */
  readonly edges: Float64Array;
  /** Bins in use, the unknown bin included. */
  readonly bins: number;
}

/**
 * Edges at the quantiles of the known training values; values in between are halfway, so that a value that never was
 * seen falls to its nearer neighbour. Categories keep their commonest codes; rarer and unseen ones are unknown.
 *
 * @param rows - places of the training plays
 */
export function fitBinning(column: FeatureColumn, rows: Int32Array): Binning {
  return column.kind === 'category' ? categoryBins(column.values, rows) : numberBins(column.values, rows);
}

/** Categories on fewer training plays than this teach nothing. */
const FEWEST_OF_A_CATEGORY = 5;

function categoryBins(values: Float64Array, rows: Int32Array): Binning {
  const counts = new Map<number, number>();
  for (const row of rows) {
    const value = values[row] ?? Number.NaN;
    if (!Number.isNaN(value)) counts.set(value, (counts.get(value) ?? 0) + 1);
  }
  const common = [...counts]
    .filter(([, count]) => count >= FEWEST_OF_A_CATEGORY)
    .sort(([firstCode, first], [otherCode, other]) => other - first || firstCode - otherCode)
    .slice(0, MOST_BINS - 1)
    .map(([code]) => code);
  return { isCategory: true, edges: Float64Array.from(common), bins: common.length + 1 };
}

function numberBins(values: Float64Array, rows: Int32Array): Binning {
  const known = new Float64Array(rows.length);
  let count = 0;
  for (const row of rows) {
    const value = values[row] ?? Number.NaN;
    if (!Number.isNaN(value)) known[count++] = value;
  }
  const sorted = known.subarray(0, count).sort();
  const edges: number[] = [];
  const most = MOST_BINS - 1;
  const distinct = new Set(sorted.length > 4000 ? sorted.filter((_, at) => at % 7 === 0) : sorted);
  if (distinct.size <= most) {
    const all = [...new Set(sorted)];
    if (all.length <= most) {
      for (let at = 0; at + 1 < all.length; at += 1) edges.push(((all[at] ?? 0) + (all[at + 1] ?? 0)) / 2);
      return { isCategory: false, edges: Float64Array.from([...edges, Infinity]), bins: all.length + 1 };
    }
  }
  for (let bin = 1; bin < most; bin += 1) {
    const at = Math.floor((bin * count) / most);
    const below = sorted[at - 1] ?? 0;
    const edge = (below + (sorted[at] ?? below)) / 2;
    if (edge > (edges.at(-1) ?? -Infinity)) edges.push(edge);
  }
  return { isCategory: false, edges: Float64Array.from([...edges, Infinity]), bins: edges.length + 2 };
}

/** The bin of every play. */
export function binColumn(column: FeatureColumn, binning: Binning): Uint8Array {
  const { values } = column;
  const binned = new Uint8Array(values.length);
  if (binning.isCategory) {
    const binOf = new Map([...binning.edges].map((code, place) => [code, place + 1]));
    for (let row = 0; row < values.length; row += 1) binned[row] = binOf.get(values[row] ?? Number.NaN) ?? UNKNOWN_BIN;
    return binned;
  }
  const { edges } = binning;
  for (let row = 0; row < values.length; row += 1) {
    const value = values[row] ?? Number.NaN;
    if (Number.isNaN(value)) continue;
    let low = 0;
    let high = edges.length - 1;
    while (low < high) {
      const middle = (low + high) >> 1;
      if ((edges[middle] ?? Infinity) >= value) high = middle;
      else low = middle + 1;
    }
    binned[row] = low + 1;
  }
  return binned;
}
