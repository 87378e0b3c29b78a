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
const CATEGORY_RIDGE = 0.7;

/** How one column's values are told apart: a category's common values, or a number's knots. */
interface Scale {
  /** Place of each value of a category; null of a number. */
  readonly placeOf: ReadonlyMap<number, number> | null;
  /** Values of a category, or the knots of a number, rising. */
  readonly values: readonly number[];
  readonly ridge: number;
}

/** A column as parts of which a play has one or two, with weights that add up to 1. */
interface Parts {
  readonly count: number;
  readonly first: Int32Array;
  readonly second: Int32Array;
  /** Weight of the second; the first has the rest. */
  readonly share: Float32Array;
}

/** How columns become a design, learned from training plays and good for any others. */
export interface DesignPlan {
  readonly scales: ReadonlyMap<string, Scale>;
  readonly blocks: readonly {
    readonly first: string;
    readonly second: string | null;
    readonly ridge: number;
    readonly base: number;
    readonly size: number;
  }[];
  readonly width: number;
  readonly ridges: Float64Array;
}

/**
 * Numbers as linear splines with knots at quantiles of the training plays (hat functions: a play has two neighbouring
 * ones), categories and unknown as indicators, and the crosses asked for.
 *
 * @param rows - training plays, for the knots and for which categories are common enough
 */
export function planDesign(columns: readonly FeatureColumn[], crosses: readonly Cross[], rows: Int32Array): DesignPlan {
  const scales = new Map(columns.map((column) => [column.name, scaleOf(column, rows)]));
  const blocks: DesignPlan['blocks'][number][] = [];
  let width = 1;
  const add = (first: string, second: string | null, ridge: number): void => {
    const size = sizeOf(scales.get(first)) * (second === null ? 1 : sizeOf(scales.get(second)));
    blocks.push({ first, second, ridge, base: width, size });
    width += size;
  };
  for (const [name, { ridge }] of scales) add(name, null, ridge);
  for (const { first, second, ridge } of crosses)
    if (scales.has(first) && scales.has(second)) add(first, second, ridge);
  const ridges = new Float64Array(width);
  for (const { ridge, base, size } of blocks) ridges.fill(ridge, base, base + size);
  return { scales, blocks, width, ridges };
}

/** One part for each value or knot, and one for what is not known. */
function sizeOf(scale: Scale | undefined): number {
  return (scale?.values.length ?? 0) + 1;
}

/**
 * The design of some plays.
 *
 * @param columns - those of the plan, for the plays in question
 */
export function designFor({ scales, blocks, width, ridges }: DesignPlan, columns: readonly FeatureColumn[]): Design {
  const parts = new Map(
    columns.flatMap(({ name, values }) => {
      const scale = scales.get(name);
      return scale === undefined ? [] : [[name, partsOf(values, scale)] as const];
    }),
  );
  const plays = columns[0]?.values.length ?? 0;
  const pairs = blocks.flatMap(({ first, second, base }) => {
    const [one, by] = [parts.get(first), second === null ? null : parts.get(second)];
    return one === undefined || by === undefined ? [] : [{ parts: one, by, base }];
  });
  const mostEntries = 1 + pairs.reduce((sum, { by }) => sum + (by === null ? 2 : 4), 0);
  const starts = new Int32Array(plays + 1);
  const places = new Int32Array(plays * mostEntries);
  const weights = new Float32Array(plays * mostEntries);
  let at = 0;
  for (let play = 0; play < plays; play += 1) {
    places[at] = 0;
    weights[at++] = 1;
    for (const { parts: one, by, base } of pairs) {
      const share = one.share[play] ?? 0;
      for (let end = 0; end < 2; end += 1) {
        const weight = end === 0 ? 1 - share : share;
        const part = (end === 0 ? one.first[play] : one.second[play]) ?? -1;
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

function scaleOf({ kind, values }: FeatureColumn, rows: Int32Array): Scale {
  const counts = new Map<number, number>();
  for (const row of rows) {
    const value = values[row] ?? Number.NaN;
    if (!Number.isNaN(value)) counts.set(value, (counts.get(value) ?? 0) + 1);
  }
  if (kind === 'category' || counts.size <= FEW_VALUES) {
    const common = [...counts].filter(([, count]) => count >= FEWEST_OF_A_CATEGORY).map(([value]) => value);
    return {
      placeOf: new Map(common.map((value, place) => [value, place])),
      values: common,
      ridge: kind === 'category' ? CATEGORY_RIDGE : 1,
    };
  }
  const sorted = Float64Array.from(rows, (row) => values[row] ?? Number.NaN).filter((value) => !Number.isNaN(value));
  sorted.sort();
  const knots = [...new Set(KNOT_SHARES.map((share) => sorted[Math.round(share * (sorted.length - 1))] ?? 0))];
  return { placeOf: null, values: knots, ridge: 1 };
}

function partsOf(values: Float64Array, { placeOf, values: known }: Scale): Parts {
  const count = known.length + 1;
  const first = new Int32Array(values.length);
  const second = new Int32Array(values.length);
  const share = new Float32Array(values.length);
  if (placeOf !== null) {
    values.forEach((value, play) => {
      first[play] = Number.isNaN(value) ? known.length : (placeOf.get(value) ?? -1);
    });
    return { count, first, second, share };
  }
  values.forEach((value, play) => {
    if (Number.isNaN(value)) {
      first[play] = known.length;
      return;
    }
    let at = 0;
    while (at + 2 < known.length && value > (known[at + 1] ?? 0)) at += 1;
    const [low, high] = [known[at] ?? 0, known[at + 1] ?? 0];
    first[play] = at;
    second[play] = at + 1;
    share[play] = high > low ? Math.min(1, Math.max(0, (value - low) / (high - low))) : 0;
  });
  return { count, first, second, share };
}
