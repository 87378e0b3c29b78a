import type { TwoByTwo } from '../../statistics/two-by-two.js';
import type { Levels } from './levels.js';
import type { Strata } from './strata.js';

/** Cue and call in one situation of one game: rows with and without the cue, columns with and without the call. */
export interface CallTable {
  readonly game: number;
  readonly situation: number;
  /** Where it is a single play, what it is compared with: those of the same number. */
  readonly pool: number;
  readonly table: TwoByTwo;
}

/**
 * One cue value against one call, group by group. For the few that are looked at closely; the many are counted at once
 * by `associate`.
 *
 * @param row    - level of the cue
 * @param column - level of the dimension
 * @returns every group in which both are known on some play, telling or not
 */
export function callTables(cue: Levels, row: number, dimension: Levels, column: number, strata: Strata): CallTable[] {
  const tables: CallTable[] = [];
  const { starts, games, situations, pools } = strata;
  for (let group = 0; group + 1 < starts.length; group += 1) {
    let [both, cueOnly, callOnly, neither] = [0, 0, 0, 0];
    const to = starts[group + 1] ?? 0;
    for (let at = starts[group] ?? 0; at < to; at += 1) {
      const shown = cue.codes[at] ?? -1;
      const called = dimension.codes[at] ?? -1;
      if (shown < 0 || called < 0) continue;
      if (shown === row) {
        if (called === column) both += 1;
        else cueOnly += 1;
      } else if (called === column) callOnly += 1;
      else neither += 1;
    }
    if (both + cueOnly + callOnly + neither === 0) continue;
    tables.push({
      game: games[group] ?? 0,
      situation: situations[group] ?? 0,
      pool: pools[group] ?? 0,
      table: [
        [both, cueOnly],
        [callOnly, neither],
      ],
    });
  }
  return tables;
}

/**
 * The tables that are tested: those of one play each are put together, one table a pool, as `associate` does.
 *
 * @param tables - of one cue value and one call
 */
export function testedTables(tables: readonly CallTable[]): TwoByTwo[] {
  const tested: TwoByTwo[] = [];
  const alone = new Map<number, [[number, number], [number, number]]>();
  for (const { pool, table } of tables) {
    const [[both, cueOnly], [callOnly, neither]] = table;
    if (both + cueOnly + callOnly + neither > 1) {
      tested.push(table);
      continue;
    }
    const sums = alone.get(pool) ?? [
      [0, 0],
      [0, 0],
    ];
    sums[0][0] += both;
    sums[0][1] += cueOnly;
    sums[1][0] += callOnly;
    sums[1][1] += neither;
    alone.set(pool, sums);
  }
  return [...tested, ...alone.values()];
}
