import type { FeatureColumn } from '../features/feature-column.js';

/** Sparse rows: play `row` has entries starts[row] up to, not including, starts[row + 1]. */
export interface Design {
  readonly starts: Int32Array;
  readonly places: Int32Array;
  readonly weights: Float32Array;
  readonly width: number;
  /** Ridge of each coefficient, as a factor on the model's own. */
  readonly ridges: Float64Array;
}

/** Columns to be crossed: each of the parts of one with each of the parts of the other. */
export interface Cross {
  readonly first: string;
  readonly second: string;
  readonly ridge: number;
}

/** Numbers with at most this many values stand for themselves, one part a value. */
const FEW_VALUES = 8;
const KNOT_SHARES = [0, 0.05, 0.15, 0.3, 0.5, 0.7, 0.85, 0.95, 1];
const FEWEST_OF_A_CATEGORY = 5;
const CATEGORY_RIDGE = 2;

/** A column as parts of which a play has one or two, with weights that add up to 1. */
interface Parts {
  readonly count: number;
  readonly ridge: number;
  readonly first: Int32Array;
  readonly second: Int32Array;
  /** Weight of the second; the first has the rest. */
  readonly share: Float32Array;
}

/**
 * Numbers as linear splines with knots at quantiles of the training plays (hat functions: a play has two neighbouring
 * ones), categories and unknown as indicators, and the crosses asked for.
 *
 * @param rows - training plays, for the knots and for which categories are common enough
 */
export function designOf(columns: readonly FeatureColumn[], crosses: readonly Cross[], rows: Int32Array): Design {
  const byName = new Map(columns.map((column) => [column.name, partsOf(column, rows)]));
  const blocks: { readonly parts: Parts; readonly by: Parts | null; readonly ridge: number; readonly base: number }[] =
    [];
  let width = 1;
  const add = (parts: Parts, by: Parts | null, ridge: number): void => {
    blocks.push({ parts, by, ridge, base: width });
    width += parts.count * (by?.count ?? 1);
  };
  for (const parts of byName.values()) add(parts, null, parts.ridge);
  for (const { first, second, ridge } of crosses) {
    const [parts, by] = [byName.get(first), byName.get(second)];
    if (parts !== undefined && by !== undefined) add(parts, by, ridge);
  }
  const ridges = new Float64Array(width);
  for (const { parts, by, ridge, base } of blocks) ridges.fill(ridge, base, base + parts.count * (by?.count ?? 1));
  const plays = columns[0]?.values.length ?? 0;
  const mostEntries = 1 + blocks.reduce((sum, { by }) => sum + (by === null ? 2 : 4), 0);
  const starts = new Int32Array(plays + 1);
  const places = new Int32Array(plays * mostEntries);
  const weights = new Float32Array(plays * mostEntries);
  let at = 0;
  for (let play = 0; play < plays; play += 1) {
    places[at] = 0;
    weights[at++] = 1;
    for (const { parts, by, base } of blocks) {
      const share = parts.share[play] ?? 0;
      for (let end = 0; end < 2; end += 1) {
        const weight = end === 0 ? 1 - share : share;
        const part = (end === 0 ? parts.first[play] : parts.second[play]) ?? -1;
        if (weight === 0 || part < 0) continue;
        if (by === null) {
          places[at] = base + part;
          weights[at++] = weight;
          continue;
        }
        const byShare = by.share[play] ?? 0;
        for (let other = 0; other < 2; other += 1) {
          const product = weight * (other === 0 ? 1 - byShare : byShare);
          const byPart = (other === 0 ? by.first[play] : by.second[play]) ?? -1;
          if (product === 0 || byPart < 0) continue;
          places[at] = base + part * by.count + byPart;
          weights[at++] = product;
        }
      }
    }
    starts[play + 1] = at;
  }
  return { starts, places: places.subarray(0, at), weights: weights.subarray(0, at), width, ridges };
}

function partsOf({ kind, values }: FeatureColumn, rows: Int32Array): Parts {
  const counts = new Map<number, number>();
  for (const row of rows) {
    const value = values[row] ?? Number.NaN;
    if (!Number.isNaN(value)) counts.set(value, (counts.get(value) ?? 0) + 1);
  }
  if (kind === 'category' || counts.size <= FEW_VALUES) {
    const common = [...counts].filter(([, count]) => count >= FEWEST_OF_A_CATEGORY).map(([value]) => value);
    const placeOf = new Map(common.map((value, place) => [value, place]));
    const first = Int32Array.from(values, (value) =>
      Number.isNaN(value) ? common.length : (placeOf.get(value) ?? -1),
    );
    const none = new Int32Array(values.length);
    const ridge = kind === 'category' ? CATEGORY_RIDGE : 1;
    return { count: common.length + 1, ridge, first, second: none, share: new Float32Array(values.length) };
  }
  const sorted = Float64Array.from(rows, (row) => values[row] ?? Number.NaN).filter((value) => !Number.isNaN(value));
  sorted.sort();
  const knots = [...new Set(KNOT_SHARES.map((share) => sorted[Math.round(share * (sorted.length - 1))] ?? 0))];
  const first = new Int32Array(values.length);
  const second = new Int32Array(values.length);
  const share = new Float32Array(values.length);
  values.forEach((value, play) => {
    if (Number.isNaN(value)) {
      first[play] = knots.length;
      return;
    }
    let at = 0;
    while (at + 2 < knots.length && value > (knots[at + 1] ?? 0)) at += 1;
    const [low, high] = [knots[at] ?? 0, knots[at + 1] ?? 0];
    first[play] = at;
    second[play] = at + 1;
    share[play] = high > low ? Math.min(1, Math.max(0, (value - low) / (high - low))) : 0;
  });
  return { count: knots.length + 1, ridge: 1, first, second, share };
}
