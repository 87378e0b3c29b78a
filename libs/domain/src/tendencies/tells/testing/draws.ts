import type { RandomSource } from '../../../statistics/seeded-random.js';

// Test support: draws that the generator of leagues needs.

/** A whole number from 0, below the given one. */
export function whole(random: RandomSource, below: number): number {
  return Math.floor(random() * below);
}

/** Some of the values, none twice. */
export function pick<Value>(random: RandomSource, values: readonly Value[], count: number): Value[] {
  const left = [...values];
  return Array.from({ length: Math.min(count, left.length) }, () => left.splice(whole(random, left.length), 1)).flat();
}

/** The place of one share, drawn by the shares. */
export function draw(random: RandomSource, shares: readonly number[]): number {
  let rest = random();
  for (let value = 0; value < shares.length; value += 1) {
    rest -= shares[value] ?? 0;
    if (rest < 0) return value;
  }
  return shares.length - 1;
}
