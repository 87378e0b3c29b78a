/**
 * Sum that carries the rounding error along, so that a long sum loses no more than a short one.
 *
 * @param values - finite numbers, any length; the sum of none is 0
 * @see Neumaier (1974), Z. Angew. Math. Mech. 54, 39–51
 */
export function compensatedSum(values: Iterable<number>): number {
  let sum = 0;
  let lost = 0;
  for (const value of values) {
    const next = sum + value;
    lost += Math.abs(sum) >= Math.abs(value) ? sum - next + value : value - next + sum;
    sum = next;
  }
  return sum + lost;
}
