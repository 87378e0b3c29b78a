import { assertCount } from '../statistics/guards.js';

/**
 * Seeds in the order in which they stand in the first round of a bracket, so that while favourites win, seed s meets seed
 * 2k + 1 - s in the round of 2k. Common practice, no source: each seed is replaced by itself and its complement while the
 * bracket doubles.
 *
 * @param places - a power of 2, at least 2
 * @returns seeds from 1, neighbours (first and second, third and fourth, ...) meet
 * @throws DomainError `stats.invalid_count`
 */
export function seedingOrder(places: number): number[] {
  assertCount('places', places, { min: 2, max: 2 ** 16 });
  assertCount('rounds of two halves', Math.log2(places), { min: 1 });
  let order = [1];
  while (order.length < places) {
    const sum = 2 * order.length + 1;
    order = order.flatMap((seed) => [seed, sum - seed]);
  }
  return order;
}

/** The number of places of the smallest bracket that holds so many entrants. */
export function placesFor(entrants: number): number {
  return 2 ** Math.max(1, Math.ceil(Math.log2(entrants)));
}
