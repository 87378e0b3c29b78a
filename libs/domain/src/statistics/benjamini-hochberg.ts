import { elementAt } from './element-at.js';
import { assertOpenUnit, assertUnit } from './guards.js';

export interface FalseDiscoveryControl {
  /** Adjusted p-values in the order given, in [0, 1]: the smallest level at which each would be found. */
  readonly adjusted: readonly number[];
  readonly rejected: readonly boolean[];
}

/**
 * Which of many tests to believe so that, on average, at most the stated share of the believed ones is
 * false. Feed every test that was looked at, not only those that will be shown.
 *
 * @param pValues - in [0, 1], any number, any order; independent or positively dependent
 * @param level   - false discovery rate in (0, 1)
 * @throws DomainError `stats.invalid_probability`
 * @see Benjamini & Hochberg (1995), J. R. Stat. Soc. B 57, 289–300
 */
export function benjaminiHochberg(pValues: readonly number[], level: number): FalseDiscoveryControl {
  assertOpenUnit('level', level);
  for (const pValue of pValues) assertUnit('pValues', pValue);

  const descending = [...pValues.keys()].sort(
    (first, second) => elementAt(pValues, second) - elementAt(pValues, first),
  );
  const adjusted = new Array<number>(pValues.length).fill(1);
  // From the largest down: no test may look better than one with a smaller p-value.
  let smallest = 1;
  for (const [fromTop, index] of descending.entries()) {
    const rank = pValues.length - fromTop;
    smallest = Math.min(smallest, elementAt(pValues, index) * (pValues.length / rank));
    adjusted[index] = smallest;
  }
  return { adjusted, rejected: adjusted.map((value) => value <= level) };
}
