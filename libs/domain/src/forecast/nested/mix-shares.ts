const STEPS = 30;

/**
 * Weights of several forecasts in their mixture, by expectation and maximisation on plays that each had forecast before
 * they were played.
 *
 * @param shares - of each forecast, plays x classes
 * @param rows   - plays to fit on
 * @returns one weight a forecast, adding up to 1
 * @see Dempster, Laird & Rubin (1977), J. R. Stat. Soc. B 39, 1–38
 */
export function fitMixture(
  shares: readonly Float64Array[],
  outcome: Int32Array,
  classes: number,
  rows: Int32Array,
): readonly number[] {
  let weights = shares.map(() => 1 / shares.length);
  for (let step = 0; step < STEPS; step += 1) {
    const sums = shares.map(() => 1);
    for (const row of rows) {
      const cell = row * classes + (outcome[row] ?? 0);
      const parts = shares.map((share, place) => (weights[place] ?? 0) * (share[cell] ?? 0));
      const total = parts.reduce((sum, part) => sum + part, 0);
      if (total <= 0) continue;
      parts.forEach((part, place) => {
        sums[place] = (sums[place] ?? 0) + part / total;
      });
    }
    const all = sums.reduce((sum, part) => sum + part, 0);
    weights = sums.map((sum) => sum / all);
  }
  return weights;
}

/** The mixture, plays x classes, filled at `rows`. */
export function mixShares(
  shares: readonly Float64Array[],
  weights: readonly number[],
  classes: number,
  rows: Int32Array,
): Float64Array {
  const mixed = new Float64Array(shares[0]?.length ?? 0);
  for (const row of rows) {
    for (let cell = row * classes; cell < (row + 1) * classes; cell += 1) {
      let share = 0;
      for (let place = 0; place < shares.length; place += 1) {
        share += (weights[place] ?? 0) * (shares[place]?.[cell] ?? 0);
      }
      mixed[cell] = share;
    }
  }
  return mixed;
}
