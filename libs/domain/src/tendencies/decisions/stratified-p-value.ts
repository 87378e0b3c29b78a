import { cochranMantelHaenszel } from '../../statistics/cochran-mantel-haenszel.js';
import { isTelling, stratifiedExactTest } from '../../statistics/stratified-exact-test.js';
import type { TwoByTwo } from '../../statistics/two-by-two.js';

// Mantel and Fleiss (1980): from here on the chi-square is close enough.
const ENOUGH_FOR_CHI_SQUARE = 5;

/**
 * Two-sided p-value of a 2 × 2 question asked within strata: Cochran, Mantel and Haenszel with continuity correction
 * where the strata carry it, else the exact conditional mid-P.
 *
 * @param strata - tables of counts, same rows and columns throughout
 * @returns null where no stratum leaves its counts a choice: nothing can be said
 * @throws DomainError `stats.invalid_count`
 * @see Mantel & Fleiss (1980), Am. J. Epidemiol. 112, 129–134
 */
export function stratifiedPValue(strata: readonly TwoByTwo[]): number | null {
  const telling = strata.filter(isTelling);
  if (telling.length === 0) return null;
  const { pValue, mantelFleiss } = cochranMantelHaenszel(telling, { continuity: true });
  return mantelFleiss >= ENOUGH_FOR_CHI_SQUARE ? pValue : stratifiedExactTest(telling).midP.twoSided;
}

/**
 * 2 × 2 tables of plays by stratum.
 *
 * @param places  - plays to count
 * @param stratum - a play's stratum, -1 to leave it out
 * @param first   - whether a play belongs to the first row: 1 yes, 0 no, -1 leave out
 * @param column  - likewise for the first column
 */
export function tablesByStratum(
  places: Int32Array,
  stratum: (play: number) => number,
  first: (play: number) => number,
  column: (play: number) => number,
): TwoByTwo[] {
  const tables = new Map<number, [[number, number], [number, number]]>();
  for (const play of places) {
    const [where, row, answer] = [stratum(play), first(play), column(play)];
    if (where < 0 || row < 0 || answer < 0) continue;
    const table = tables.get(where) ?? [
      [0, 0],
      [0, 0],
    ];
    tables.set(where, table);
    const counts = row === 1 ? table[0] : table[1];
    counts[answer === 1 ? 0 : 1] += 1;
  }
  return [...tables.values()];
}
