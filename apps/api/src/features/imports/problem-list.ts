import { printed } from '../../common/printed.js';
import type { FieldProblem } from '../../common/problems.js';

/** Beyond this many a person mends the file and looks again; the total still says how many there are. */
const LISTED = 200;

/** Collects what is wrong with a file, without keeping more than a person would read. */
export class ProblemList {
  private readonly listedProblems: FieldProblem[] = [];
  private count = 0;

  /** @param expected - a function where it takes work to say; it is asked only for problems that are listed */
  add(row: number, field: string, found: unknown, expected: string | (() => string)): void {
    this.count += 1;
    if (this.listedProblems.length < LISTED) {
      const told = typeof expected === 'string' ? expected : expected();
      this.listedProblems.push({ row, field, found: printed(found), expected: told });
    }
  }

  get total(): number {
    return this.count;
  }

  get listed(): readonly FieldProblem[] {
    return this.listedProblems;
  }
}
