import type { Levels } from './levels.js';
import type { Strata } from './strata.js';

/**
 * How a cue's levels (rows) and a dimension's levels (columns) went together, over all groups of one situation in one
 * game; plays that are alone in theirs are compared over games, within the situation. Matrices are rows × columns, row by
 * row. `observed` and what follows it count only groups that say something: at least two rows and two columns in use.
 */
export interface Association {
  readonly rows: number;
  readonly columns: number;
  /** Plays on which both are known, whether their group says something or not. */
  readonly known: number;
  readonly rowPlays: Int32Array;
  readonly observed: Float64Array;
  readonly expected: Float64Array;
  readonly variance: Float64Array;
  /** The least and the most that the margins of each group allow. */
  readonly lowest: Float64Array;
  readonly highest: Float64Array;
}

/**
 * Counts one cue against one dimension, for every value of each at once. A single pass: each group's plays are tallied,
 * its sums added, and the tally cleared by walking only what was touched.
 *
 * A play that is the only known one of its group says nothing there: in 100 games of 50 plays that is one in fifteen. Such
 * plays make one more group for each player and situation. No game has more than one play in it, so that no game's plan can speak; whether a
 * play is alone depends on what was charted, never on what went with what.
 *
 * @param cue       - levels in the order of the groups
 * @param dimension - levels in the order of the groups
 * @see Mantel & Haenszel (1959), J. Natl. Cancer Inst. 22, 719–748
 */
export function associate(cue: Levels, dimension: Levels, { starts, pools }: Strata): Association {
  const [rows, columns] = [cue.count, dimension.count];
  const cells = rows * columns;
  const sums = {
    rowPlays: new Int32Array(rows),
    observed: new Float64Array(cells),
    expected: new Float64Array(cells),
    variance: new Float64Array(cells),
    lowest: new Float64Array(cells),
    highest: new Float64Array(cells),
  };
  const tally = {
    rows: new Int32Array(rows),
    columns: new Int32Array(columns),
    cells: new Int32Array(cells),
    usedRows: new Int32Array(rows),
    usedColumns: new Int32Array(columns),
  };
  // Cells of the plays that are alone in their group, of one pool at a time.
  const alone = new Int32Array(starts.length);
  let aloneCount = 0;
  const addAlone = (): void => {
    let [usedRows, usedColumns] = [0, 0];
    for (let at = 0; at < aloneCount; at += 1) {
      const cell = alone[at] ?? 0;
      const column = cell % columns;
      const row = (cell - column) / columns;
      if (tally.rows[row] === 0) tally.usedRows[usedRows++] = row;
      tally.rows[row] = (tally.rows[row] ?? 0) + 1;
      if (tally.columns[column] === 0) tally.usedColumns[usedColumns++] = column;
      tally.columns[column] = (tally.columns[column] ?? 0) + 1;
      tally.cells[cell] = (tally.cells[cell] ?? 0) + 1;
    }
    addGroup(sums, tally, aloneCount, usedRows, usedColumns, columns);
    aloneCount = 0;
  };
  let known = 0;
  for (let group = 0; group + 1 < starts.length; group += 1) {
    // The groups of a pool follow each other.
    if (group > 0 && pools[group] !== pools[group - 1]) addAlone();
    const to = starts[group + 1] ?? 0;
    let [plays, usedRows, usedColumns] = [0, 0, 0];
    for (let at = starts[group] ?? 0; at < to; at += 1) {
      const row = cue.codes[at] ?? -1;
      const column = dimension.codes[at] ?? -1;
      if (row < 0 || column < 0) continue;
      plays += 1;
      const inRow = tally.rows[row] ?? 0;
      if (inRow === 0) tally.usedRows[usedRows++] = row;
      tally.rows[row] = inRow + 1;
      const inColumn = tally.columns[column] ?? 0;
      if (inColumn === 0) tally.usedColumns[usedColumns++] = column;
      tally.columns[column] = inColumn + 1;
      const cell = row * columns + column;
      tally.cells[cell] = (tally.cells[cell] ?? 0) + 1;
    }
    known += plays;
    if (plays === 1) {
      const [row, column] = [tally.usedRows[0] ?? 0, tally.usedColumns[0] ?? 0];
      alone[aloneCount++] = row * columns + column;
      tally.rows[row] = 0;
      tally.columns[column] = 0;
      tally.cells[row * columns + column] = 0;
      continue;
    }
    addGroup(sums, tally, plays, usedRows, usedColumns, columns);
  }
  addAlone();
  return { rows, columns, known, ...sums };
}

type Sums = Omit<Association, 'rows' | 'columns' | 'known'>;

interface Tally {
  readonly rows: Int32Array;
  readonly columns: Int32Array;
  readonly cells: Int32Array;
  readonly usedRows: Int32Array;
  readonly usedColumns: Int32Array;
}

function addGroup(
  sums: Sums,
  tally: Tally,
  plays: number,
  usedRows: number,
  usedColumns: number,
  columns: number,
): void {
  const telling = usedRows > 1 && usedColumns > 1;
  for (let i = 0; i < usedRows; i += 1) {
    const row = tally.usedRows[i] ?? 0;
    const inRow = tally.rows[row] ?? 0;
    sums.rowPlays[row] = (sums.rowPlays[row] ?? 0) + inRow;
    // Of plays² × (plays - 1); the product with inColumn × (plays - inColumn) is the hypergeometric variance.
    const weight = telling ? (inRow * (plays - inRow)) / (plays * plays * (plays - 1)) : 0;
    for (let j = 0; j < usedColumns; j += 1) {
      const column = tally.usedColumns[j] ?? 0;
      const inColumn = tally.columns[column] ?? 0;
      const cell = row * columns + column;
      const count = tally.cells[cell] ?? 0;
      tally.cells[cell] = 0;
      if (!telling) continue;
      sums.observed[cell] = (sums.observed[cell] ?? 0) + count;
      sums.expected[cell] = (sums.expected[cell] ?? 0) + (inRow * inColumn) / plays;
      sums.variance[cell] = (sums.variance[cell] ?? 0) + weight * inColumn * (plays - inColumn);
      const least = inRow + inColumn - plays;
      if (least > 0) sums.lowest[cell] = (sums.lowest[cell] ?? 0) + least;
      sums.highest[cell] = (sums.highest[cell] ?? 0) + (inRow < inColumn ? inRow : inColumn);
    }
    tally.rows[row] = 0;
  }
  for (let j = 0; j < usedColumns; j += 1) {
    const column = tally.usedColumns[j] ?? 0;
    tally.columns[column] = 0;
  }
}

/** Mantel and Fleiss's figure: how far the expected count lies from the nearer end of its range, in counts. */
export function mantelFleiss({ expected, lowest, highest }: Association, cell: number): number {
  const expects = expected[cell] ?? 0;
  return Math.min(expects - (lowest[cell] ?? 0), (highest[cell] ?? 0) - expects);
}

/** Deviation from what the margins expect, in standard deviations less half a count; at least 0, whatever the sign. */
export function correctedDeviation({ observed, expected, variance }: Association, cell: number): number {
  const spread = variance[cell] ?? 0;
  if (spread <= 0) return 0;
  return Math.max(0, Math.abs((observed[cell] ?? 0) - (expected[cell] ?? 0)) - 0.5) / Math.sqrt(spread);
}
