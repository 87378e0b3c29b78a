import type { CellLeftover } from '#domain/charting/sheet-mapping-cells.js';
import type { ProblemList } from './problem-list.js';

/** A cell of which something was left over, and how often it is there. */
interface CountedLeftover extends CellLeftover {
  readonly count: number;
  readonly firstRow: number;
}

/** Beyond this many a person mends the mapping and looks again. */
const LISTED = 200;
/** A column of free text that is split by mistake must not fill the memory; the total still counts every cell. */
const KEPT = 10_000;

/** Collects what a mapping does not explain, each cell once. */
export class LeftoverList {
  private readonly cells = new Map<
    string,
    { readonly leftover: CellLeftover; readonly firstRow: number; count: number }
  >();
  private count = 0;

  add(row: number, leftover: CellLeftover): void {
    this.count += 1;
    const key = `${leftover.header}\n${leftover.cell}\n${leftover.words.join('\n')}`;
    const known = this.cells.get(key);
    if (known !== undefined) known.count += 1;
    else if (this.cells.size < KEPT) this.cells.set(key, { leftover, firstRow: row, count: 1 });
  }

  get total(): number {
    return this.count;
  }

  /** The most frequent first, then as they stand in the file. */
  get listed(): readonly CountedLeftover[] {
    return [...this.cells.values()]
      .sort((one, other) => other.count - one.count || one.firstRow - other.firstRow)
      .slice(0, LISTED)
      .map(({ leftover, firstRow, count }) => ({ ...leftover, count, firstRow }));
  }

  /** Makes a problem of each. */
  refuse(problems: ProblemList): void {
    for (const { leftover, firstRow } of this.cells.values()) {
      const expected =
        leftover.reason === 'not understood'
          ? `words that the mapping knows; not known: ${leftover.words.join(', ')}`
          : `words that go together; these do not: ${leftover.words.join(', ')}`;
      problems.add(firstRow, leftover.header, leftover.cell, expected);
    }
  }
}
