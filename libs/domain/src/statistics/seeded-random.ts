import { assertCount } from './guards.js';

/** A source of random numbers, uniform in [0, 1). The domain takes it as an argument and never makes one itself. */
export type RandomSource = () => number;

export type GeneratorState = readonly [number, number, number, number];

/**
 * Reproducible random numbers: the same seed gives the same stream on every machine. SplitMix64
 * spreads the seed over the state, xoshiro128** runs on it, and two of its outputs make the 53 bits
 * of a number. For simulation and permutation, never for secrets.
 *
 * @param seed - integer, 0 ≤ seed ≤ 2⁵³ - 1; neighbouring seeds give unrelated streams
 * @returns a source of numbers uniform in [0, 1), multiples of 2⁻⁵³
 * @throws DomainError `stats.invalid_count`
 * @see Blackman & Vigna (2021), ACM Trans. Math. Softw. 47(4), article 36; Steele, Lea & Flood (2014), OOPSLA, 453–472
 */
export function seededRandom(seed: number): RandomSource {
  assertCount('seed', seed, { min: 0 });
  const spread = splitMix64(BigInt(seed));
  const [first, second] = [spread(), spread()];
  const state = Int32Array.of(lowWord(first), highWord(first), lowWord(second), highWord(second));
  return () => {
    const high = nextWord(state) >>> 5;
    const low = nextWord(state) >>> 6;
    return (high * 2 ** 26 + low) / 2 ** 53;
  };
}

/**
 * The generator itself, version 1.1.
 *
 * @param state - four unsigned 32-bit words, not all 0
 * @returns a function giving one unsigned 32-bit word a call
 */
export function xoshiro128StarStar(state: GeneratorState): () => number {
  const words = Int32Array.from(state);
  return () => nextWord(words) >>> 0;
}

/** Over an array: four variables that a function closes over take twice as long. */
function nextWord(state: Int32Array): number {
  const a = state[0] ?? 0;
  const b = state[1] ?? 0;
  const c = (state[2] ?? 0) ^ a;
  const d = (state[3] ?? 0) ^ b;
  state[0] = a ^ d;
  state[1] = b ^ c;
  state[2] = c ^ (b << 9);
  state[3] = rotateLeft(d, 11);
  return Math.imul(rotateLeft(Math.imul(b, 5), 7), 9);
}

/**
 * The generator that spreads a seed.
 *
 * @param seed - taken modulo 2⁶⁴
 * @returns a function giving one unsigned 64-bit integer a call
 */
export function splitMix64(seed: bigint): () => bigint {
  let state = seed;
  return () => {
    state = BigInt.asUintN(64, state + 0x9e3779b97f4a7c15n);
    const once = BigInt.asUintN(64, (state ^ (state >> 30n)) * 0xbf58476d1ce4e5b9n);
    const twice = BigInt.asUintN(64, (once ^ (once >> 27n)) * 0x94d049bb133111ebn);
    return twice ^ (twice >> 31n);
  };
}

function rotateLeft(word: number, bits: number): number {
  return (word << bits) | (word >>> (32 - bits));
}

function lowWord(value: bigint): number {
  return Number(BigInt.asUintN(32, value));
}

function highWord(value: bigint): number {
  return Number(BigInt.asUintN(32, value >> 32n));
}
