import { DomainError } from '../domain-error.js';
import { assertFinite, assertLength, assertSameLength } from '../statistics/guards.js';
import { solveGame, type Payoffs } from './matrix-game.js';

export interface Equilibrium {
  /** What either side can hold the other to, in the payoffs' unit. */
  readonly value: number;
  /** Shares of the rows and of the columns, each adding up to 1. */
  readonly rows: readonly number[];
  readonly columns: readonly number[];
  /** What the column player's mix lets through less what the row player's makes sure of; ≤ 1e-9 of the payoffs' range. */
  readonly gap: number;
}

/** Of the range of the payoffs, or of 1 where that is smaller. */
const MOST_GAP = 1e-9;

/**
 * Equilibrium of a zero-sum game: the row player's mix maximises the worst column, and the dual is the column player's.
 * There may be several such mixes; the value is one. The answer is checked by weak duality and not by trust in the solver.
 *
 * @throws DomainError `stats.invalid_shape`, `stats.invalid_number`; `stats.no_convergence` where the gap is too wide
 * @see von Neumann (1928), Math. Ann. 100, 295–320; Chvátal (1983), Linear Programming, chapter 15
 */
export function equilibrium(payoffs: Payoffs): Equilibrium {
  assertPayoffs(payoffs);
  const mixes = solveGame(payoffs);
  const [rows, columns] = [normalised(mixes.rows), normalised(mixes.columns)];
  const value = worstColumn(payoffs, rows);
  const gap = Math.max(...payoffs.map((row) => dot(row, columns))) - value;
  const all = payoffs.flat();
  if (!(gap <= MOST_GAP * Math.max(1, Math.max(...all) - Math.min(...all)))) {
    throw new DomainError('stats.no_convergence', `the solver left a gap of ${gap}`, { gap });
  }
  return { value, rows, columns, gap: Math.max(0, gap) };
}

/**
 * The row player's mix that leans on what the column player is thought to do: it maximises (1 - lean) times its worst
 * column plus lean times its gain against the given shares. 0 is the equilibrium, 1 the best response, and what lies
 * between gives up as little safety as its gain costs. It is the equilibrium of the game in which every payoff is drawn
 * by the lean towards its row's gain against those shares.
 *
 * @param shares - of the columns, adding up to 1
 * @param lean   - in [0, 1]
 * @throws DomainError as `equilibrium`
 * @see Johanson, Zinkevich & Bowling (2008), Adv. Neural Inf. Process. Syst. 20, 721–728 (restricted Nash responses)
 */
export function leaning(payoffs: Payoffs, shares: readonly number[], lean: number): readonly number[] {
  assertSameLength('shares', shares, assertPayoffs(payoffs));
  return equilibrium(
    payoffs.map((row) => {
      const expected = dot(row, shares);
      return row.map((gain) => (1 - lean) * gain + lean * expected);
    }),
  ).rows;
}

/** What a mix of rows makes sure of: its gain against the column that is worst for it. */
export function worstColumn(payoffs: Payoffs, rows: readonly number[]): number {
  return Math.min(...gainsByColumn(payoffs, rows));
}

/** Gain of a mix of rows against each column. */
export function gainsByColumn(payoffs: Payoffs, rows: readonly number[]): number[] {
  return (payoffs[0] ?? []).map((_, column) =>
    payoffs.reduce((sum, row, at) => sum + (rows[at] ?? 0) * (row[column] ?? 0), 0),
  );
}

/** A row that another row, or the mix that was found, beats against every column. */
export interface DominatedRow {
  readonly row: number;
  /** Shares of the rows that beat it. */
  readonly by: readonly number[];
  /** By how much against the column where it is closest, above 0. */
  readonly margin: number;
}

/**
 * Rows that are strictly dominated by another row or by the given mix: no equilibrium plays them. A single row that
 * dominates is named before the mix. Another mix may dominate where neither does; that is not looked for.
 *
 * @param mix - shares of the rows, for instance the equilibrium's
 * @throws DomainError as `equilibrium`
 */
export function dominatedRows(payoffs: Payoffs, mix: readonly number[]): DominatedRow[] {
  assertPayoffs(payoffs);
  const ofMix = gainsByColumn(payoffs, mix);
  return payoffs.flatMap((own, row): DominatedRow[] => {
    const ahead = (gains: readonly number[]): number =>
      Math.min(...gains.map((gain, column) => gain - (own[column] ?? 0)));
    const margins = payoffs.map((other, at) => (at === row ? -Infinity : ahead(other)));
    const best = margins.indexOf(Math.max(...margins));
    const margin = margins[best] ?? -Infinity;
    if (margin > MOST_GAP) return [{ row, by: payoffs.map((_, at) => (at === best ? 1 : 0)), margin }];
    const byMix = ahead(ofMix);
    return byMix > MOST_GAP ? [{ row, by: mix, margin: byMix }] : [];
  });
}

function assertPayoffs(payoffs: Payoffs): number {
  assertLength('payoffs', payoffs, { min: 1 });
  const columns = payoffs[0]?.length ?? 0;
  for (const row of payoffs) {
    assertLength('payoffs columns', row, { min: 1 });
    assertSameLength('payoffs columns', row, columns);
    for (const gain of row) assertFinite('payoff', gain);
  }
  return columns;
}

function dot(one: readonly number[], other: readonly number[]): number {
  return one.reduce((sum, value, place) => sum + value * (other[place] ?? 0), 0);
}

/** Rounding leaves shares a hair below 0 or off 1. */
function normalised(shares: readonly number[]): number[] {
  const kept = shares.map((share) => Math.max(0, share));
  const sum = kept.reduce((total, share) => total + share, 0);
  return kept.map((share) => (sum === 0 ? 1 / kept.length : share / sum));
}
