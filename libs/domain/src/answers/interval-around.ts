import { normalQuantile } from '../statistics/distributions.js';
import { assertOpenUnit } from '../statistics/guards.js';
import type { Interval } from '../statistics/interval.js';

/**
 * The central interval of a normal posterior.
 *
 * @param confidence - in (0, 1)
 * @throws DomainError `stats.invalid_probability`
 */
export function intervalAround(mean: number, standardDeviation: number, confidence: number): Interval {
  assertOpenUnit('confidence', confidence);
  const half = normalQuantile((1 + confidence) / 2) * standardDeviation;
  return { lower: mean - half, upper: mean + half };
}
