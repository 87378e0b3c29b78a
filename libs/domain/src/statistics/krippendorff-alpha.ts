import { DomainError } from '../domain-error.js';
import { compensatedSum } from './compensated-sum.js';
import { elementAt } from './element-at.js';
import { assertFinite, assertLength, assertSameLength } from './guards.js';

/** How far two values lie apart: different or not, by rank, or by the square of their distance. */
export type AlphaMetric = 'nominal' | 'ordinal' | 'interval';

/**
 * Agreement of any number of raters beyond chance, with gaps: not everyone rates everything. A unit
 * rated once says nothing and is left out. 1 is full agreement, 0 what chance gives.
 *
 * @param ratings - raters × units; null where a rater did not rate. Names for `nominal` may be given as
 *                  numbers of one's own; `ordinal` and `interval` read the numbers
 * @param metric  - distance between values; the caller says which
 * @throws DomainError `stats.invalid_shape`, `stats.invalid_number`; `stats.undefined_statistic` where no unit
 *         has two ratings, or all ratings agree on one value
 * @see Krippendorff (2011), Computing Krippendorff's Alpha-Reliability; Krippendorff (2004), Content Analysis, 2nd ed., ch. 11
 */
export function krippendorffAlpha(ratings: readonly (readonly (number | null)[])[], metric: AlphaMetric): number {
  assertLength('ratings', ratings, { min: 2 });
  const units = elementAt(ratings, 0).map((_, unit) => {
    const values = ratings.map((rater) => {
      assertSameLength('ratings', rater, elementAt(ratings, 0).length);
      return elementAt(rater, unit);
    });
    return values.filter((value) => value !== null);
  });
  const pairable = units.filter((values) => values.length >= 2);
  for (const value of pairable.flat()) assertFinite('ratings', value);

  const levels = [...new Set(pairable.flat())].sort((first, second) => first - second);
  if (levels.length < 2) {
    throw new DomainError('stats.undefined_statistic', 'no two ratings of one unit, or one value only', { levels });
  }

  const totals = levels.map((level) => pairable.flat().filter((value) => value === level).length);
  const distance = distanceOf(metric, levels, totals);
  const placeOf = new Map(levels.map((level, place) => [level, place]));
  const between = (first: number, second: number): number =>
    distance(placeOf.get(first) ?? -1, placeOf.get(second) ?? -1);

  const observed = compensatedSum(
    pairable.map((values) => {
      const apart = values.flatMap((first) => values.map((second) => between(first, second)));
      return compensatedSum(apart) / (values.length - 1);
    }),
  );
  const expected = compensatedSum(
    totals.flatMap((first, row) => totals.map((second, column) => first * second * distance(row, column))),
  );
  return 1 - ((compensatedSum(totals) - 1) * observed) / expected;
}

/** Squared distance between two places among the sorted values. */
function distanceOf(
  metric: AlphaMetric,
  levels: readonly number[],
  totals: readonly number[],
): (first: number, second: number) => number {
  if (metric === 'nominal') return (first, second) => (first === second ? 0 : 1);
  if (metric === 'interval') return (first, second) => (elementAt(levels, first) - elementAt(levels, second)) ** 2;
  // Ratings between two places, with half of those at either end.
  return (first, second) => {
    const [low, high] = [Math.min(first, second), Math.max(first, second)];
    const ends = (elementAt(totals, low) + elementAt(totals, high)) / 2;
    return (compensatedSum(totals.slice(low, high + 1)) - ends) ** 2;
  };
}
