import { createHash } from 'node:crypto';
import { drawDirichlet } from '#domain/statistics/draw-dirichlet.js';
import { drawNormal } from '#domain/statistics/draw-gamma.js';
import { elementAt } from '#domain/statistics/element-at.js';
import { seededRandom, type RandomSource } from '#domain/statistics/seeded-random.js';

/** Everything drawn in the demo world hangs on this text: change it, and another league comes out. */
const WORLD = 'roundbook demo league, edition 1';

/** Words and how often each is used; the numbers need not add up to 1. */
export type Weights = Readonly<Record<string, number>>;

/**
 * A stream of its own for each named thing (a player's habits, one game, one chart), so that a change in one of them
 * leaves the others as they were.
 */
export function streamFor(name: string): RandomSource {
  return seededRandom(digest(name).readUIntBE(0, 6));
}

/** A fixed id in the shape of a UUID version 7: the date of the thing, then bits that follow from its name. */
export function fixedId(name: string, isoDate: string): string {
  const time = Date.parse(isoDate).toString(16).padStart(12, '0');
  const rest = digest(`id ${name}`).toString('hex');
  const variant = elementAt('89ab', Number.parseInt(rest.slice(3, 4), 16) % 4);
  return [
    time.slice(0, 8),
    time.slice(8),
    `7${rest.slice(0, 3)}`,
    `${variant}${rest.slice(4, 7)}`,
    rest.slice(7, 19),
  ].join('-');
}

export function chance(random: RandomSource, share: number): boolean {
  return random() < share;
}

/** A whole number, both ends included. */
export function between(random: RandomSource, low: number, high: number): number {
  return low + Math.floor(random() * (high - low + 1));
}

export function oneOf<Value>(random: RandomSource, values: readonly Value[]): Value {
  return elementAt(values, Math.floor(random() * values.length));
}

export function pick(random: RandomSource, weights: Weights): string {
  const entries = Object.entries(weights);
  let rest = random() * entries.reduce((sum, [, weight]) => sum + weight, 0);
  for (const [word, weight] of entries) {
    rest -= weight;
    if (rest < 0) return word;
  }
  return elementAt(entries, entries.length - 1)[0];
}

/** Shares drawn around the given ones; the larger the concentration, the closer. */
export function drawnAround(random: RandomSource, weights: Weights, concentration: number): Weights {
  const words = Object.keys(weights);
  const total = Object.values(weights).reduce((sum, weight) => sum + weight, 0);
  const shares = drawDirichlet(
    random,
    Object.values(weights).map((weight) => (concentration * weight) / total),
  );
  return Object.fromEntries(words.map((word, index) => [word, elementAt(shares, index)]));
}

export function normal(random: RandomSource, mean: number, spread: number): number {
  return mean + spread * drawNormal(random);
}

export function logistic(value: number): number {
  return 1 / (1 + Math.exp(-value));
}

export function logit(share: number): number {
  return Math.log(share / (1 - share));
}

export function clamp(value: number, low: number, high: number): number {
  return Math.min(high, Math.max(low, value));
}

/** Weights with some of them multiplied: how a situation bends a habit. */
export function bent(weights: Weights, factors: Weights): Weights {
  return Object.fromEntries(Object.entries(weights).map(([word, weight]) => [word, weight * (factors[word] ?? 1)]));
}

function digest(name: string): Buffer {
  return createHash('sha256').update(`${WORLD}/${name}`).digest();
}
