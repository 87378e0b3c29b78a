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

/** A plan with its columns by number, worked out once: a single play to come asks it again and again. */
interface ReadyPlan {
  readonly placeOf: ReadonlyMap<string, number>;
  readonly scales: readonly Scale[];
  /** Each block's column, the one that it is crossed with (-1 for none), how many parts that has, and where it begins. */
  readonly blocks: readonly {
    readonly one: number;
    readonly by: number;
    readonly byCount: number;
    readonly base: number;
  }[];
  /** Of the play that is read. */
  readonly parts: Parts;
  readonly row: DesignRow;
}

/** One play's entries: the first `count`, and behind them whatever was there before. */
export interface DesignRow {
  readonly places: Int32Array;
  readonly weights: Float32Array;
  count: number;
}

const READY = new WeakMap<DesignPlan, ReadyPlan>();

function readyPlan(plan: DesignPlan): ReadyPlan {
  const known = READY.get(plan);
  if (known !== undefined) return known;
  const placeOf = new Map([...plan.scales.keys()].map((name, place) => [name, place]));
  const blocks = plan.blocks.map(({ first, second, base }) => ({
    one: placeOf.get(first) ?? -1,
    by: second === null ? -1 : (placeOf.get(second) ?? -1),
    byCount: second === null ? 0 : sizeOf(plan.scales.get(second)),
    base,
  }));
  const mostEntries = 1 + blocks.reduce((sum, { by }) => sum + (by < 0 ? 2 : 4), 0);
  const scales = [...plan.scales.values()];
  const parts = {
    first: new Int32Array(scales.length),
    second: new Int32Array(scales.length),
    share: new Float32Array(scales.length),
  };
  const row = { places: new Int32Array(mostEntries), weights: new Float32Array(mostEntries), count: 0 };
  const ready = { placeOf, scales, blocks, parts, row };
  READY.set(plan, ready);
  return ready;
}

/** Columns of one play as parts of which it has one or two, with weights that add up to 1; one entry a column. */
interface Parts {
  readonly first: Int32Array;
  readonly second: Int32Array;
  /** Weight of the second; the first has the rest. */
  readonly share: Float32Array;
}

/**
 * The design of some plays.
 *
 * @param columns - those of the plan, for the plays in question; one that is left out is not known of any of them
 */
export function designFor(plan: DesignPlan, columns: readonly FeatureColumn[]): Design {
  const plays = columns[0]?.values.length ?? 0;
  const mostEntries = readyPlan(plan).row.places.length;
  const starts = new Int32Array(plays + 1);
  const places = new Int32Array(plays * mostEntries);
  const weights = new Float32Array(plays * mostEntries);
  let at = 0;
  eachRow(plan, columns, (play, row) => {
    for (let entry = 0; entry < row.count; entry += 1) {
      places[at] = row.places[entry] ?? 0;
      weights[at++] = row.weights[entry] ?? 0;
    }
    starts[play + 1] = at;
  });
  const { width, ridges } = plan;
  return { starts, places: places.subarray(0, at), weights: weights.subarray(0, at), width, ridges };
}

/**
 * Goes over plays as the rows of a design, without one: of a single play, making that would be most of the work.
 *
 * @param columns - as of `designFor`
 * @param take    - of each play; the row is the next play's afterwards
 */
export function eachRow(
  plan: DesignPlan,
  columns: readonly FeatureColumn[],
  take: (play: number, row: DesignRow) => void,
): void {
  const ready = readyPlan(plan);
  const { placeOf, scales, parts, row } = ready;
  const valuesOf: (Float64Array | null)[] = scales.map(() => null);
  for (const { name, values } of columns) {
    const place = placeOf.get(name);
    if (place !== undefined) valuesOf[place] = values;
  }
  const plays = columns[0]?.values.length ?? 0;
  for (let play = 0; play < plays; play += 1) {
    scales.forEach((scale, place) => {
      fillPart(parts, place, valuesOf[place]?.[play] ?? Number.NaN, scale);
    });
    fillRow(ready);
    take(play, row);
  }
}

function fillRow({ blocks, parts, row }: ReadyPlan): void {
  const { first, second, share } = parts;
  const { places, weights } = row;
  places[0] = 0;
  weights[0] = 1;
  let at = 1;
  for (const { one, by, byCount, base } of blocks) {
    const shareOfOne = share[one] ?? 0;
    for (let end = 0; end < 2; end += 1) {
      const weight = end === 0 ? 1 - shareOfOne : shareOfOne;
      const part = (end === 0 ? first[one] : second[one]) ?? -1;
      if (weight === 0 || part < 0) continue;
      if (by < 0) {
        places[at] = base + part;
        weights[at++] = weight;
        continue;
      }
      const shareOfBy = share[by] ?? 0;
      for (let other = 0; other < 2; other += 1) {
        const product = weight * (other === 0 ? 1 - shareOfBy : shareOfBy);
        const byPart = (other === 0 ? first[by] : second[by]) ?? -1;
        if (product === 0 || byPart < 0) continue;
        places[at] = base + part * byCount + byPart;
        weights[at++] = product;
      }
    }
  }
  row.count = at;
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

/** @param place - of the column among the scales */
function fillPart({ first, second, share }: Parts, place: number, value: number, scale: Scale): void {
  const { placeOf, values: known } = scale;
  share[place] = 0;
  if (Number.isNaN(value)) {
    first[place] = known.length;
    return;
  }
  if (placeOf !== null) {
    first[place] = placeOf.get(value) ?? -1;
    return;
  }
  let at = 0;
  while (at + 2 < known.length && value > (known[at + 1] ?? 0)) at += 1;
  const [low, high] = [known[at] ?? 0, known[at + 1] ?? 0];
  first[place] = at;
  second[place] = at + 1;
  share[place] = high > low ? Math.min(1, Math.max(0, (value - low) / (high - low))) : 0;
}
