import { DomainError } from '../domain-error.js';
import { normalCdf } from './distributions.js';
import { elementAt } from './element-at.js';
import { assertFinite, assertLength } from './guards.js';

export interface MannKendallResult {
  /** Rising pairs minus falling pairs. */
  readonly score: number;
  /** Of the score under no trend, corrected for ties. */
  readonly variance: number;
  /** (|score| - 1) / standard deviation, with the sign of the score. */
  readonly z: number;
  readonly normalPValue: number;
  /** Exact two-sided p-value; null where values tie or there are more than 100. Below about ten values trust this one. */
  readonly exactPValue: number | null;
  /** Median slope over all pairs, in the values' unit per step. */
  readonly senSlope: number;
}

// The exact distribution takes n³ / 4 additions; beyond this the normal one agrees to four digits.
const EXACT_LIMIT = 100;

/**
 * Does a series rise or fall, whatever the shape of the rise? With Sen's slope for its size. Takes the values
 * as independent and of equal precision: where the groups behind them differ much in size, prefer
 * Cochran-Armitage.
 *
 * @param values - finite, in the order of time at equal steps, at least three
 * @throws DomainError `stats.invalid_shape`, `stats.invalid_number`; `stats.undefined_statistic` where all agree
 * @see Mann (1945), Econometrica 13, 245–259; Kendall (1975), Rank Correlation Methods; Sen (1968), J. Am. Stat. Assoc. 63, 1379–1389
 */
export function mannKendall(values: readonly number[]): MannKendallResult {
  assertLength('values', values, { min: 3 });
  for (const value of values) assertFinite('values', value);

  const pairs = values.flatMap((earlier, index) =>
    values.slice(index + 1).map((later, gap) => ({ rise: later - earlier, steps: gap + 1 })),
  );
  const score = pairs.reduce((sum, { rise }) => sum + Math.sign(rise), 0);
  const count = values.length;
  const variance = (count * (count - 1) * (2 * count + 5) - tieTerm(values)) / 18;
  if (variance === 0) throw new DomainError('stats.undefined_statistic', 'all values agree', { count });

  const z = (Math.sign(score) * Math.max(0, Math.abs(score) - 1)) / Math.sqrt(variance);
  const exact = new Set(values).size === count && count <= EXACT_LIMIT;
  return {
    score,
    variance,
    z,
    normalPValue: Math.min(1, 2 * normalCdf(-Math.abs(z))),
    exactPValue: exact ? Math.min(1, 2 * scoreTail(count, Math.abs(score))) : null,
    senSlope: median(pairs.map(({ rise, steps }) => rise / steps)),
  };
}

function tieTerm(values: readonly number[]): number {
  const sizes = new Map<number, number>();
  for (const value of values) sizes.set(value, (sizes.get(value) ?? 0) + 1);
  return [...sizes.values()].reduce((sum, size) => sum + size * (size - 1) * (2 * size + 5), 0);
}

/** P(score ≥ the given one) when all orders of untied values are equally likely. */
function scoreTail(count: number, score: number): number {
  // A new last value stands after 0 to n - 1 of the others: each number of falling pairs is equally likely.
  let falling = [1];
  for (let length = 2; length <= count; length += 1) {
    const next = new Array<number>(falling.length + length - 1).fill(0);
    for (const [pairs, probability] of falling.entries()) {
      for (let added = 0; added < length; added += 1) {
        next[pairs + added] = elementAt(next, pairs + added) + probability / length;
      }
    }
    falling = next;
  }
  const most = ((count * (count - 1)) / 2 - score) / 2;
  return falling.slice(0, most + 1).reduce((sum, probability) => sum + probability, 0);
}

function median(values: readonly number[]): number {
  const sorted = values.toSorted((first, second) => first - second);
  const upper = Math.floor(sorted.length / 2);
  if (sorted.length % 2 === 1) return elementAt(sorted, upper);
  return (elementAt(sorted, upper - 1) + elementAt(sorted, upper)) / 2;
}
