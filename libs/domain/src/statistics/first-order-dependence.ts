import { DomainError } from '../domain-error.js';
import { chiSquareTest, type IndependenceResult } from './chi-square-test.js';
import { compensatedSum } from './compensated-sum.js';
import { elementAt } from './element-at.js';
import { assertCount, assertCountTable } from './guards.js';

/**
 * How often each call followed each other, inside sequences only: a pair across two games or halves is not one.
 *
 * @param sequences  - each in order, of category numbers from 0
 * @param categories - how many there are, ≥ 2
 * @returns counts, from × to
 * @throws DomainError `stats.invalid_count`
 */
export function transitionCounts(sequences: readonly (readonly number[])[], categories: number): number[][] {
  assertCount('categories', categories, { min: 2 });
  const counts = Array.from({ length: categories }, () => new Array<number>(categories).fill(0));
  for (const sequence of sequences) {
    for (const category of sequence) assertCount('sequences', category, { min: 0, max: categories - 1 });
    for (const [index, to] of sequence.slice(1).entries()) {
      const row = elementAt(counts, elementAt(sequence, index));
      row[to] = elementAt(row, to) + 1;
    }
  }
  return counts;
}

/**
 * Does the last call say anything of the next? Chi-square and G test of independence on transitions, with
 * (categories - 1)² degrees of freedom; categories never left or never entered are dropped first. The
 * situation ties successive calls together as well: test inside a situation.
 *
 * @param transitions - counts, from × to, square
 * @throws DomainError `stats.invalid_count`, `stats.invalid_shape`; `stats.undefined_statistic` where fewer than
 *         two categories are left or entered
 * @see Anderson & Goodman (1957), Ann. Math. Stat. 28, 89–110; Avery & Henderson (1999), Applied Statistics 48, 53–61
 */
export function firstOrderDependenceTest(transitions: readonly (readonly number[])[]): IndependenceResult {
  assertCountTable('transitions', transitions, { columns: transitions.length, minRows: 2 });
  const left = transitions.filter((row) => compensatedSum(row) > 0);
  const entered = transitions.flatMap((_, column) => (left.some((row) => elementAt(row, column) > 0) ? [column] : []));
  if (left.length < 2 || entered.length < 2) {
    throw new DomainError('stats.undefined_statistic', 'fewer than two categories are left or entered', {
      left: left.length,
      entered: entered.length,
    });
  }
  return chiSquareTest(left.map((row) => entered.map((column) => elementAt(row, column))));
}
