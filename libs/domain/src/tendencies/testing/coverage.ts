import type { ListedCell, RawCell } from './share-figures.js';

// Test support: how often something holds among cells, and how far that is known.

export interface Coverage {
  readonly cells: number;
  readonly share: number;
  /** Monte Carlo standard error over leagues: cells of one league have a field and players in common. */
  readonly error: number;
}

/**
 * Share of the cells of which something holds.
 *
 * @param cells - at least one
 * @see Cochran (1977), Sampling Techniques, 3rd ed., 6.3 (a ratio of sums over leagues)
 */
export function coverageOf<Cell extends RawCell>(cells: readonly Cell[], isHeld: (cell: Cell) => boolean): Coverage {
  const leagues = new Map<number, { cells: number; held: number }>();
  for (const cell of cells) {
    const league = leagues.get(cell.seed) ?? { cells: 0, held: 0 };
    league.cells += 1;
    if (isHeld(cell)) league.held += 1;
    leagues.set(cell.seed, league);
  }
  const all = [...leagues.values()];
  const share = all.reduce((sum, { held }) => sum + held, 0) / cells.length;
  const squares = all.reduce((sum, league) => sum + (league.held - share * league.cells) ** 2, 0);
  const error = Math.sqrt((squares * all.length) / Math.max(1, all.length - 1)) / cells.length;
  return { cells: cells.length, share, error };
}

export function meanSquaredError<Cell extends RawCell>(
  cells: readonly Cell[],
  shareOf: (cell: Cell) => number,
): number {
  return cells.reduce((sum, cell) => sum + (shareOf(cell) - cell.truth) ** 2, 0) / cells.length;
}

export interface DistanceGroup {
  /** Distances of the truth from the field's share, as fractions of 1. */
  readonly from: number;
  readonly to: number;
  readonly cells: readonly ListedCell[];
}

/** Ten groups of equal size by |truth - field|, nearest first. @param cells - at least ten */
export function decilesByDistance(cells: readonly ListedCell[]): DistanceGroup[] {
  const sorted = [...cells].sort((a, b) => distanceOf(a) - distanceOf(b));
  const cut = (decile: number): number => Math.round((decile * sorted.length) / 10);
  return Array.from({ length: 10 }, (_, decile) => {
    const group = sorted.slice(cut(decile), cut(decile + 1));
    const [first, last] = [group.at(0), group.at(-1)];
    return {
      from: first === undefined ? Number.NaN : distanceOf(first),
      to: last === undefined ? Number.NaN : distanceOf(last),
      cells: group,
    };
  });
}

function distanceOf({ truth, field }: ListedCell): number {
  return Math.abs(truth - field);
}
