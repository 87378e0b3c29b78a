import { elementAt } from './element-at.js';
import type { RandomSource } from './seeded-random.js';

/**
 * The same elements in an order drawn evenly among all orders.
 *
 * @param random - uniform source
 * @param values - any length; not changed
 * @returns a new array
 * @see Durstenfeld (1964), Comm. ACM 7, 420 (algorithm 235), after Fisher and Yates
 */
export function shuffled<Value>(random: RandomSource, values: readonly Value[]): Value[] {
  const result = [...values];
  for (let last = result.length - 1; last > 0; last -= 1) {
    const chosen = Math.floor(random() * (last + 1));
    const moved = elementAt(result, last);
    result[last] = elementAt(result, chosen);
    result[chosen] = moved;
  }
  return result;
}
