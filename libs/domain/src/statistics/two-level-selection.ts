import { benjaminiHochberg } from './benjamini-hochberg.js';
import { elementAt } from './element-at.js';

/** Tests that belong together (say: all calls of one cue), with one test for the whole. */
export interface HypothesisFamily {
  /** Of the family as a whole, in [0, 1]: is there anything here? */
  readonly pValue: number;
  /** Of its members, in [0, 1]. */
  readonly members: readonly number[];
}

export interface FamilySelection {
  readonly selected: boolean;
  /** Members found, in order; all false in a family that was not selected. */
  readonly rejected: readonly boolean[];
}

/**
 * Tests in two levels: first families by their own p-values, then members inside the selected ones at a
 * level cut to the share of families selected. On average over the selected families, at most the stated
 * share of found members is false; many idle families cost the others far less than one large list would.
 *
 * @param families - any number
 * @param level    - false discovery rate in (0, 1), of families and, on average, of members
 * @returns one selection per family, in order
 * @throws DomainError `stats.invalid_probability`
 * @see Benjamini & Bogomolov (2014), J. R. Stat. Soc. B 76, 297–318
 */
export function twoLevelSelection(families: readonly HypothesisFamily[], level: number): FamilySelection[] {
  const { rejected: chosen } = benjaminiHochberg(
    families.map(({ pValue }) => pValue),
    level,
  );
  const share = chosen.filter(Boolean).length / families.length;
  return families.map(({ members }, index) => {
    const selected = elementAt(chosen, index);
    // Members of families that were not selected are still looked at, so that a wrong p-value is refused anywhere.
    const { rejected } = benjaminiHochberg(members, share > 0 ? level * share : level);
    return { selected, rejected: rejected.map((found) => selected && found) };
  });
}
