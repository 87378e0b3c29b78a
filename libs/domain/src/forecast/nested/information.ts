/**
 * Mutual information of a cue and the outcome in nats, less its bias on few plays, averaged over all plays: a cue that is
 * seldom charted helps seldom.
 *
 * @param keys - one a play, -1 where the cue is not known
 * @param rows - plays to judge by
 * @see Miller (1955), Note on the bias of information estimates
 */
export function information(keys: Int32Array, outcome: Int32Array, classes: number, rows: Int32Array): number {
  const counts = new Map<number, Float64Array>();
  const all = new Float64Array(classes);
  let total = 0;
  for (const row of rows) {
    const key = keys[row] ?? -1;
    if (key < 0) continue;
    let cell = counts.get(key);
    if (cell === undefined) counts.set(key, (cell = new Float64Array(classes)));
    const seen = outcome[row] ?? 0;
    cell[seen] = (cell[seen] ?? 0) + 1;
    all[seen] = (all[seen] ?? 0) + 1;
    total += 1;
  }
  let sum = 0;
  for (const cell of counts.values()) {
    const plays = cell.reduce((plus, count) => plus + count, 0);
    cell.forEach((count, k) => {
      if (count > 0) sum += count * Math.log((count * total) / (plays * (all[k] ?? 1)));
    });
  }
  const freedom = (counts.size - 1) * (all.filter((count) => count > 0).length - 1);
  // What is seldom charted helps seldom: the sum is over the plays on which it is known, shared out over all.
  return (sum - freedom / 2) / Math.max(1, rows.length);
}
