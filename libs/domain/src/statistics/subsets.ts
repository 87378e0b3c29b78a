import { assertCount } from './guards.js';

/**
 * How many ways there are to choose some of a set, as a whole number while that is exact in a double.
 *
 * @param from   - integer ≥ 0
 * @param chosen - integer, 0 ≤ chosen ≤ from
 * @throws DomainError `stats.invalid_count`
 */
export function subsetCount(from: number, chosen: number): number {
  assertCount('from', from, { min: 0 });
  assertCount('chosen', chosen, { min: 0, max: from });
  let ways = 1;
  // Each product is itself a count of subsets, so that every division comes out even.
  for (let place = 1; place <= chosen; place += 1) ways = (ways * (from - chosen + place)) / place;
  return ways;
}

/**
 * Every way to choose some of a set, each as ascending places, in lexicographic order.
 *
 * @param from   - size of the set; integer ≥ 0
 * @param chosen - integer, 0 ≤ chosen ≤ from
 * @throws DomainError `stats.invalid_count`
 * @see Knuth (2011), The Art of Computer Programming 4A, section 7.2.1.3
 */
export function subsets(from: number, chosen: number): number[][] {
  assertCount('from', from, { min: 0 });
  assertCount('chosen', chosen, { min: 0, max: from });
  const all: number[][] = [];
  const extend = (taken: readonly number[], next: number): void => {
    if (taken.length === chosen) {
      all.push([...taken]);
      return;
    }
    for (let place = next; place <= from - (chosen - taken.length); place += 1) extend([...taken, place], place + 1);
  };
  extend([], 0);
  return all;
}
