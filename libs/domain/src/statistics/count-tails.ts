import { elementAt } from './element-at.js';

/**
 * How often a count exceeds 0, 1, 2, …, with each group counted by its weight. Sums of
 * ln Γ(a + x) - ln Γ(a) over groups collapse to Σ tail[j] ln(a + j): exact for integer counts,
 * free of the cancellation of the gamma functions, and as long as the largest count, however
 * many groups there are.
 *
 * @param counts  - one per group, integers ≥ 0
 * @param weights - one per group, ≥ 0
 * @returns tail[j] = total weight of the groups whose count exceeds j
 * @see Minka (2000, rev. 2012), Estimating a Dirichlet distribution, section 4
 */
export function countTails(counts: readonly number[], weights: readonly number[]): number[] {
  const largest = counts.reduce((highest, count) => Math.max(highest, count), 0);
  const tails = new Array<number>(largest + 1).fill(0);
  for (const [group, count] of counts.entries()) tails[count] = elementAt(tails, count) + elementAt(weights, group);

  let exceeding = 0;
  for (let value = largest; value >= 0; value -= 1) {
    const here = elementAt(tails, value);
    tails[value] = exceeding;
    exceeding += here;
  }
  tails.pop(); // no count exceeds the largest
  return tails;
}

/** Σ over groups of weight × (ln Γ(start + count) - ln Γ(start)); start > 0. */
export function logRisingSum(tails: readonly number[], start: number): number {
  return tails.reduce((sum, tail, step) => sum + tail * Math.log(start + step), 0);
}

/** First derivative of logRisingSum in start. */
export function logRisingSlope(tails: readonly number[], start: number): number {
  return tails.reduce((sum, tail, step) => sum + tail / (start + step), 0);
}

/** Second derivative of logRisingSum in start, with its sign turned: ≥ 0. */
export function logRisingBend(tails: readonly number[], start: number): number {
  return tails.reduce((sum, tail, step) => sum + tail / (start + step) ** 2, 0);
}
