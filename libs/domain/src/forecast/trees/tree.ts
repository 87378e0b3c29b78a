/**
 * A regression tree over binned features, flat: node 0 is the root, `left` and `right` hold places of nodes. A play goes
 * left if its bin's bit is set. Bits serve numbers and categories alike, the unknown bin included.
 */
export interface Tree {
  /** Feature of each node, -1 at a leaf. */
  readonly feature: Int16Array;
  readonly left: Int16Array;
  readonly right: Int16Array;
  /** Two 32-bit words a node: bins that go left. */
  readonly goesLeft: Int32Array;
  /** Value of each leaf, in log odds. */
  readonly value: Float64Array;
}

/** Adds the tree's value to the score of each of these plays. */
export function addTree(
  tree: Tree,
  features: readonly Uint8Array[],
  rows: Int32Array,
  scores: Float64Array,
  stride: number,
  offset: number,
): void {
  const { feature, left, right, goesLeft, value } = tree;
  for (const row of rows) {
    let node = 0;
    let split = feature[0] ?? -1;
    while (split >= 0) {
      const bin = features[split]?.[row] ?? 0;
      const isLeft = ((goesLeft[node * 2 + (bin >> 5)] ?? 0) >>> (bin & 31)) & 1;
      node = (isLeft === 1 ? left[node] : right[node]) ?? 0;
      split = feature[node] ?? -1;
    }
    const score = row * stride + offset;
    scores[score] = (scores[score] ?? 0) + (value[node] ?? 0);
  }
}
