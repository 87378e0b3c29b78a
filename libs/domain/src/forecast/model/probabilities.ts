/** Keeps a logarithm finite; below every probability that a member gives to a class it knows. */
const LEAST = 1e-9;

/**
 * Scores as probabilities: with two classes one score a play, the log odds of the second; else one a class.
 *
 * @returns plays x classes, filled at `rows`
 */
export function probabilitiesOf(scores: Float64Array, rows: Int32Array, classes: number): Float64Array {
  if (classes === 2) {
    const both = new Float64Array(scores.length * 2);
    for (const row of rows) {
      const second = 1 / (1 + Math.exp(-(scores[row] ?? 0)));
      both[row * 2] = 1 - second;
      both[row * 2 + 1] = second;
    }
    return both;
  }
  const all = new Float64Array(scores.length);
  for (const row of rows) {
    const base = row * classes;
    let top = -Infinity;
    for (let k = 0; k < classes; k += 1) top = Math.max(top, scores[base + k] ?? 0);
    let sum = 0;
    for (let k = 0; k < classes; k += 1) sum += all[base + k] = Math.exp((scores[base + k] ?? 0) - top);
    for (let k = 0; k < classes; k += 1) all[base + k] = (all[base + k] ?? 0) / sum;
  }
  return all;
}

export function logsOf(probabilities: Float64Array): Float64Array {
  return probabilities.map((probability) => Math.log(Math.max(probability, LEAST)));
}
