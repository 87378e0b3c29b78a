import type { Binning } from './binned-features.js';
import { MOST_BINS, UNKNOWN_BIN } from './binned-features.js';
import type { Tree } from './tree.js';

export interface TreeSettings {
  /** Most leaves of a tree. */
  readonly leaves: number;
  /** Added to the curvature of every leaf: shrinks values of small leaves. */
  readonly ridge: number;
  /** The same, on top, for splits of categories, which have more ways to be lucky. */
  readonly categoryRidge: number;
  /** Least curvature (plays x p(1 - p)) of a leaf. */
  readonly leastCurvature: number;
  /** Factor on the value of every leaf. */
  readonly learningRate: number;
}

interface Leaf {
  readonly node: number;
  readonly from: number;
  readonly to: number;
  readonly gradient: number;
  readonly curvature: number;
  readonly histogram: Float64Array;
  readonly split: Split | null;
}

interface Split {
  readonly feature: number;
  readonly gain: number;
  readonly lowBits: number;
  readonly highBits: number;
  readonly gradient: number;
  readonly curvature: number;
}

/**
 * Grows one tree best leaf first, by histograms of the first two derivatives of the loss: gain and leaf values as in
 * Chen and Guestrin (2016), best-first growth, histogram subtraction and categories ordered by gradient over curvature
 * as in Ke et al. (2017). Unknown values go to the side that fits them better.
 *
 * @param features   - bins by feature, one byte a play
 * @param use        - places of the features that this tree may split on
 * @param rows       - plays to learn from; reordered in place
 * @param gradients  - first derivative of the loss by score, one a play
 * @param curvatures - second derivative
 * @see Chen & Guestrin (2016), KDD, 785–794; Ke et al. (2017), NeurIPS 30
 */
export function growTree(
  features: readonly Uint8Array[],
  binnings: readonly Binning[],
  use: Int32Array,
  rows: Int32Array,
  gradients: Float64Array,
  curvatures: Float64Array,
  settings: TreeSettings,
): Tree {
  const nodes = 2 * settings.leaves - 1;
  const tree = {
    feature: new Int16Array(nodes).fill(-1),
    left: new Int16Array(nodes),
    right: new Int16Array(nodes),
    goesLeft: new Int32Array(nodes * 2),
    value: new Float64Array(nodes),
  };
  const scratch = new Int32Array(rows.length);
  const finder = new SplitFinder(binnings, use, settings);
  const size = use.length * MOST_BINS * 2;

  const fill = (from: number, to: number): Float64Array => {
    const histogram = new Float64Array(size);
    for (let place = 0; place < use.length; place += 1) {
      const bins = features[use[place] ?? 0];
      if (bins === undefined) continue;
      const base = place * MOST_BINS * 2;
      for (let at = from; at < to; at += 1) {
        const row = rows[at] ?? 0;
        const cell = base + 2 * (bins[row] ?? 0);
        histogram[cell] = (histogram[cell] ?? 0) + (gradients[row] ?? 0);
        histogram[cell + 1] = (histogram[cell + 1] ?? 0) + (curvatures[row] ?? 0);
      }
    }
    return histogram;
  };
  const leafOf = (node: number, from: number, to: number, g: number, h: number, histogram: Float64Array): Leaf => {
    tree.value[node] = (-settings.learningRate * g) / (h + settings.ridge);
    const split = h < 2 * settings.leastCurvature ? null : finder.best(histogram, g, h);
    return { node, from, to, gradient: g, curvature: h, histogram, split };
  };

  let gradient = 0;
  let curvature = 0;
  for (const row of rows) {
    gradient += gradients[row] ?? 0;
    curvature += curvatures[row] ?? 0;
  }
  const leaves = [leafOf(0, 0, rows.length, gradient, curvature, fill(0, rows.length))];
  let used = 1;
  for (let count = 1; count < settings.leaves; count += 1) {
    let best = -1;
    let gain = 0;
    leaves.forEach(({ split }, at) => {
      if (split !== null && split.gain > gain) {
        gain = split.gain;
        best = at;
      }
    });
    const leaf = leaves[best];
    if (leaf?.split === null || leaf === undefined) break;
    const { split, node, from, to } = leaf;
    const bins = features[use[split.feature] ?? 0] ?? new Uint8Array(0);
    const middle = partition(rows, scratch, from, to, bins, split.lowBits, split.highBits);
    const [left, right] = [used, used + 1];
    used += 2;
    tree.feature[node] = use[split.feature] ?? 0;
    tree.left[node] = left;
    tree.right[node] = right;
    tree.goesLeft[node * 2] = split.lowBits;
    tree.goesLeft[node * 2 + 1] = split.highBits;
    // Only the smaller side is counted; the other is what remains of the parent.
    const leftIsSmaller = middle - from <= to - middle;
    const smaller = leftIsSmaller ? fill(from, middle) : fill(middle, to);
    const larger = leaf.histogram;
    for (let cell = 0; cell < size; cell += 1) larger[cell] = (larger[cell] ?? 0) - (smaller[cell] ?? 0);
    const restGradient = leaf.gradient - split.gradient;
    const restCurvature = leaf.curvature - split.curvature;
    leaves[best] = leafOf(left, from, middle, split.gradient, split.curvature, leftIsSmaller ? smaller : larger);
    leaves.push(leafOf(right, middle, to, restGradient, restCurvature, leftIsSmaller ? larger : smaller));
  }
  return tree;
}

/** Moves the rows that go left to the front, keeping the order within both sides. */
function partition(
  rows: Int32Array,
  scratch: Int32Array,
  from: number,
  to: number,
  bins: Uint8Array,
  lowBits: number,
  highBits: number,
): number {
  let left = from;
  let right = 0;
  for (let at = from; at < to; at += 1) {
    const row = rows[at] ?? 0;
    const bin = bins[row] ?? 0;
    const isLeft = ((bin < 32 ? lowBits : highBits) >>> (bin & 31)) & 1;
    if (isLeft === 1) rows[left++] = row;
    else scratch[right++] = row;
  }
  rows.set(scratch.subarray(0, right), left);
  return left;
}

/** Bins of a category are ordered by gradient / (curvature + this), so that rare ones stay in the middle. */
const CATEGORY_SMOOTHING = 10;

class SplitFinder {
  private readonly order = new Int32Array(MOST_BINS);
  private readonly ratio = new Float64Array(MOST_BINS);

  constructor(
    private readonly binnings: readonly Binning[],
    private readonly use: Int32Array,
    private readonly settings: TreeSettings,
  ) {}

  best(histogram: Float64Array, gradient: number, curvature: number): Split | null {
    let best: Split | null = null;
    for (let place = 0; place < this.use.length; place += 1) {
      const binning = this.binnings[this.use[place] ?? 0];
      if (binning === undefined || binning.bins < 3) continue;
      const base = place * MOST_BINS * 2;
      const found = binning.isCategory
        ? this.bestOfCategory(histogram, base, binning.bins, gradient, curvature)
        : this.bestOfNumber(histogram, base, binning.bins, gradient, curvature);
      if (found !== null && (best === null || found.gain > best.gain)) best = { ...found, feature: place };
    }
    return best;
  }

  private bestOfNumber(
    histogram: Float64Array,
    base: number,
    bins: number,
    gradient: number,
    curvature: number,
  ): Omit<Split, 'feature'> | null {
    const { ridge, leastCurvature } = this.settings;
    const parent = (gradient * gradient) / (curvature + ridge);
    const unknownGradient = histogram[base + 2 * UNKNOWN_BIN] ?? 0;
    const unknownCurvature = histogram[base + 2 * UNKNOWN_BIN + 1] ?? 0;
    let best: Omit<Split, 'feature'> | null = null;
    let bestGain = 0;
    // Without unknowns both ways are the same.
    for (let unknownLeft = unknownCurvature > 1e-9 ? 0 : 1; unknownLeft < 2; unknownLeft += 1) {
      let g = unknownLeft === 1 ? unknownGradient : 0;
      let h = unknownLeft === 1 ? unknownCurvature : 0;
      for (let bin = 1; bin < bins - 1; bin += 1) {
        g += histogram[base + 2 * bin] ?? 0;
        h += histogram[base + 2 * bin + 1] ?? 0;
        if (h < leastCurvature) continue;
        const rest = curvature - h;
        if (rest < leastCurvature) break;
        const gain = (g * g) / (h + ridge) + (gradient - g) ** 2 / (rest + ridge) - parent;
        if (gain > bestGain) {
          bestGain = gain;
          best = { gain, gradient: g, curvature: h, ...bitsUpTo(bin, unknownLeft === 1) };
        }
      }
    }
    return best;
  }

  private bestOfCategory(
    histogram: Float64Array,
    base: number,
    bins: number,
    gradient: number,
    curvature: number,
  ): Omit<Split, 'feature'> | null {
    const { leastCurvature } = this.settings;
    const ridge = this.settings.ridge + this.settings.categoryRidge;
    const parent = (gradient * gradient) / (curvature + ridge);
    const { order, ratio } = this;
    let present = 0;
    for (let bin = 0; bin < bins; bin += 1) {
      const h = histogram[base + 2 * bin + 1] ?? 0;
      if (h < 1e-9) continue;
      ratio[bin] = (histogram[base + 2 * bin] ?? 0) / (h + CATEGORY_SMOOTHING);
      let at = present++;
      for (; at > 0 && (ratio[order[at - 1] ?? 0] ?? 0) > (ratio[bin] ?? 0); at -= 1) order[at] = order[at - 1] ?? 0;
      order[at] = bin;
    }
    let best: Omit<Split, 'feature'> | null = null;
    let bestGain = 0;
    let g = 0;
    let h = 0;
    let lowBits = 0;
    let highBits = 0;
    for (let at = 0; at < present - 1; at += 1) {
      const bin = order[at] ?? 0;
      g += histogram[base + 2 * bin] ?? 0;
      h += histogram[base + 2 * bin + 1] ?? 0;
      if (bin < 32) lowBits |= 1 << bin;
      else highBits |= 1 << (bin - 32);
      const rest = curvature - h;
      if (h < leastCurvature || rest < leastCurvature) continue;
      const gain = (g * g) / (h + ridge) + (gradient - g) ** 2 / (rest + ridge) - parent;
      if (gain > bestGain) {
        bestGain = gain;
        best = { gain, gradient: g, curvature: h, lowBits, highBits };
      }
    }
    return best;
  }
}

function bitsUpTo(bin: number, unknownToo: boolean): { readonly lowBits: number; readonly highBits: number } {
  let lowBits = unknownToo ? 1 : 0;
  let highBits = 0;
  for (let at = 1; at <= bin; at += 1) {
    if (at < 32) lowBits |= 1 << at;
    else highBits |= 1 << (at - 32);
  }
  return { lowBits, highBits };
}
