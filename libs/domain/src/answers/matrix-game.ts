import { DomainError } from '../domain-error.js';

/** Gain of the row player in each meeting of a row and a column; at least 1 x 1, all finite. */
export type Payoffs = readonly (readonly number[])[];

/** Shares of the rows and of the columns, each adding up to 1 but for rounding. */
export interface GameMixes {
  readonly rows: readonly number[];
  readonly columns: readonly number[];
}

/** A reduced cost this close to 0, and an entry this small, are rounding. Gains are scaled to [1, 2] first. */
const ROUNDING = 1e-12;
/** Pivots a row and column before the rule that cannot go round in circles, and before giving up. */
const [BOLD_PIVOTS, MOST_PIVOTS] = [4, 200];

/**
 * Both sides' mixes of a zero-sum game by the simplex method. With all gains B above 0 the column player's programme is
 * to maximise Σy under B y ≤ 1, y ≥ 0, which starts feasible; its solution and its duals, divided by their sum, are the
 * mixes. Written here and not asked of a library: games of calls are of some ten rows and columns, and handing such a
 * programme over costs fifty times what solving it does. Nothing is checked here; `equilibrium` does by weak duality.
 *
 * @param payoffs - at least 1 x 1, all finite
 * @throws DomainError `stats.no_convergence`
 * @see Dantzig (1951), in Activity Analysis of Production and Allocation, 330–335; Bland (1977), Math. Oper. Res. 2, 103–107
 */
export function solveGame(payoffs: Payoffs): GameMixes {
  let tableau = new GameTableau(payoffs);
  const patience = tableau.rows + tableau.columns;
  let fresh = false;
  for (let pivots = 0; pivots < MOST_PIVOTS * patience; pivots += 1) {
    const rule = pivots < BOLD_PIVOTS * patience ? 'steepest' : 'first';
    const column = tableau.entering(rule);
    if (column >= 0) tableau.exchange(tableau.leaving(column, rule), column);
    else if (fresh) return tableau.mixes();
    else tableau = tableau.workedOutAgain(payoffs);
    fresh = column < 0;
  }
  throw new DomainError('stats.no_convergence', 'the game was not solved', {});
}

/** The steepest is quick and may go round in circles, the first by name (Bland's rule) may not. */
type PivotRule = 'steepest' | 'first';

/** The programme as one table: a row each payoff row and the objective's below, the limits in the last column. */
class GameTableau {
  readonly rows: number;
  readonly columns: number;
  readonly #width: number;
  readonly #cells: Float64Array;
  /** Of each table row and column the variable: y below `columns`, from there on the slack of a payoff row. */
  readonly #basic: Int32Array;
  readonly #outside: Int32Array;

  constructor(payoffs: Payoffs) {
    let [least, most] = [Infinity, -Infinity];
    for (const row of payoffs) {
      for (const gain of row) {
        least = Math.min(least, gain);
        most = Math.max(most, gain);
      }
    }
    const range = most > least ? most - least : 1;
    this.rows = payoffs.length;
    this.columns = payoffs[0]?.length ?? 0;
    this.#width = this.columns + 1;
    // Of the limits all are 1, of the objective all costs -1, and where they meet nothing is gained yet.
    this.#cells = new Float64Array((this.rows + 1) * this.#width).fill(1);
    this.#cells.fill(-1, this.rows * this.#width);
    this.#cells[this.rows * this.#width + this.columns] = 0;
    for (const [row, gains] of payoffs.entries()) {
      for (const [column, gain] of gains.entries()) {
        this.#cells[row * this.#width + column] = 1 + (gain - least) / range;
      }
    }
    this.#basic = Int32Array.from({ length: this.rows }, (_, at) => this.columns + at);
    this.#outside = Int32Array.from({ length: this.columns }, (_, at) => at);
  }

  /** The column whose variable is to grow, -1 where none can gain: the steepest, or the first by name. */
  entering(rule: PivotRule): number {
    let [best, found] = [rule === 'steepest' ? -ROUNDING : Infinity, -1];
    for (let column = 0; column < this.columns; column += 1) {
      const cost = this.#at(this.rows, column);
      const rank = rule === 'steepest' ? cost : (this.#outside[column] ?? 0);
      if (cost < -ROUNDING && rank < best) [best, found] = [rank, column];
    }
    return found;
  }

  /**
   * The row whose variable is first to reach 0 as a column's grows; there is always one. Of several the one with the
   * largest entry, since dividing by a small one spoils the table, or the first by name.
   */
  leaving(column: number, rule: PivotRule): number {
    let least = Infinity;
    for (let row = 0; row < this.rows; row += 1) least = Math.min(least, this.#ratio(row, column));
    let [best, found] = [Infinity, 0];
    for (let row = 0; row < this.rows; row += 1) {
      if (this.#ratio(row, column) > least + (rule === 'steepest' ? ROUNDING : 0)) continue;
      const rank = rule === 'steepest' ? -this.#at(row, column) : (this.#basic[row] ?? 0);
      if (rank < best) [best, found] = [rank, row];
    }
    return found;
  }

  #ratio(row: number, column: number): number {
    const entry = this.#at(row, column);
    return entry <= ROUNDING ? Infinity : this.#at(row, this.columns) / entry;
  }

  /** Lets the variables of a row and of a column change places. */
  exchange(row: number, column: number): void {
    const [cells, width] = [this.#cells, this.#width];
    const from = row * width;
    const inverse = 1 / this.#at(row, column);
    for (let at = from; at < from + width; at += 1) cells[at] = (cells[at] ?? 0) * inverse;
    cells[from + column] = inverse;
    for (let other = 0; other <= this.rows; other += 1) {
      const start = other * width;
      const factor = cells[start + column] ?? 0;
      if (other === row || factor === 0) continue;
      cells[start + column] = 0;
      for (let at = 0; at < width; at += 1)
        cells[start + at] = (cells[start + at] ?? 0) - factor * (cells[from + at] ?? 0);
    }
    const [leaving, entering] = [this.#basic[row] ?? 0, this.#outside[column] ?? 0];
    this.#basic[row] = entering;
    this.#outside[column] = leaving;
  }

  /** The same variables in place, from the payoffs themselves: many exchanges add their rounding up. */
  workedOutAgain(payoffs: Payoffs): GameTableau {
    const again = new GameTableau(payoffs);
    const wanted = new Set(this.#basic);
    for (let column = 0; column < this.columns; column += 1) {
      if (!wanted.has(column)) continue;
      let [largest, row] = [0, -1];
      for (let at = 0; at < this.rows; at += 1) {
        const size = wanted.has(again.#basic[at] ?? 0) ? 0 : Math.abs(again.#at(at, column));
        if (size > largest) [largest, row] = [size, at];
      }
      if (row >= 0) again.exchange(row, column);
    }
    return again;
  }

  mixes(): GameMixes {
    const [rows, columns] = [new Array<number>(this.rows).fill(0), new Array<number>(this.columns).fill(0)];
    const total = this.#at(this.rows, this.columns);
    this.#basic.forEach((variable, row) => {
      if (variable < this.columns) columns[variable] = Math.max(0, this.#at(row, this.columns)) / total;
    });
    this.#outside.forEach((variable, column) => {
      if (variable >= this.columns) rows[variable - this.columns] = Math.max(0, this.#at(this.rows, column)) / total;
    });
    return { rows, columns };
  }

  #at(row: number, column: number): number {
    return this.#cells[row * this.#width + column] ?? 0;
  }
}
