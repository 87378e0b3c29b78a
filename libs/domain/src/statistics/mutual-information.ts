import { DomainError } from '../domain-error.js';
import { compensatedSum } from './compensated-sum.js';
import { elementAt } from './element-at.js';
import { entropyOfCountsBits } from './entropy.js';
import { assertCountTable } from './guards.js';

/**
 * What the row of a table tells of its column, in bits: H(row) + H(column) - H(cell). The plug-in value
 * is never below 0 and finds something in pure noise; Miller's correction takes that off on average and
 * may therefore be negative, which is for a display to cut and not for an average.
 *
 * @param table     - counts, rows × columns, integers ≥ 0, not all 0
 * @param estimator - `plug-in` or `miller-madow`; the caller says which
 * @throws DomainError `stats.invalid_count`, `stats.invalid_shape`; `stats.undefined_statistic` without any play
 * @see Cover & Thomas (2006), Elements of Information Theory, 2nd ed., 2.3; Miller (1955), in Quastler (ed.), 95–100
 */
export function mutualInformationBits(
  table: readonly (readonly number[])[],
  estimator: 'plug-in' | 'miller-madow',
): number {
  assertCountTable('table', table, { minColumns: 1 });
  const cells = table.flat();
  if (compensatedSum(cells) === 0) throw new DomainError('stats.undefined_statistic', 'no play was counted');

  const rows = table.map(compensatedSum);
  const columns = elementAt(table, 0).map((_, column) => compensatedSum(table.map((row) => elementAt(row, column))));
  const information =
    entropyOfCountsBits(rows, estimator) +
    entropyOfCountsBits(columns, estimator) -
    entropyOfCountsBits(cells, estimator);
  // The plug-in value is a divergence: below 0 there is rounding only.
  return estimator === 'plug-in' ? Math.max(0, information) : information;
}
