import { compensatedSum } from './compensated-sum.js';
import { assertFinite, assertLength, assertPositive } from './guards.js';

export interface JamesSteinEstimate {
  readonly mean: number;
  /** Share of each deviation that is kept, in [0, 1]. */
  readonly shrink: number;
  readonly estimates: readonly number[];
}

/**
 * Shrinks values of equal, known variance towards their mean; better in total squared error than the
 * values themselves, whatever the truth. Never past the mean (the positive part).
 *
 * @param values   - at least four, finite; of three or fewer nothing can be learned this way
 * @param variance - sampling variance common to all, in the square of the values' unit, > 0
 * @throws DomainError `stats.invalid_shape`, `stats.invalid_number`
 * @see James & Stein (1961), 4th Berkeley Symposium 1, 361–379; Efron & Morris (1975), J. Am. Stat. Assoc. 70, 311–319
 */
export function jamesStein(values: readonly number[], variance: number): JamesSteinEstimate {
  assertLength('values', values, { min: 4 });
  for (const value of values) assertFinite('values', value);
  assertPositive('variance', variance);

  const mean = compensatedSum(values) / values.length;
  const spread = compensatedSum(values.map((value) => (value - mean) ** 2));
  // One degree of freedom goes to the estimated mean: three instead of two.
  const shrink = spread === 0 ? 0 : Math.max(0, 1 - ((values.length - 3) * variance) / spread);
  return { mean, shrink, estimates: values.map((value) => mean + shrink * (value - mean)) };
}
