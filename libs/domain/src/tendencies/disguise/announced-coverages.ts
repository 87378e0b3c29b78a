import type { Vocabulary } from '../../charting/vocabulary.js';

const ONE_HIGH = ['cover-1', 'cover-3', 'three-deep-three-under'];
const TWO_HIGH = ['cover-2', 'cover-2-man', 'cover-4', 'quarter-quarter-half', 'two-deep-four-under-with-pressure'];

/**
 * Which coverages a shell announces: those that it is the plain picture of, with all that roll up to them. Playing any
 * other is a disguise. A late mover announces nothing. Common practice, no source; a clan may pass a table of its own.
 */
export const DEFAULT_ANNOUNCED: ReadonlyMap<string, readonly string[]> = new Map([
  ['shell.no-deep-safety', ['cover-0', 'goal-line-man']],
  ['shell.one-high', ONE_HIGH],
  ['shell.one-high-rotated-strong', ONE_HIGH],
  ['shell.one-high-rotated-weak', ONE_HIGH],
  ['shell.two-high', TWO_HIGH],
  ['shell.two-high-shallow', [...TWO_HIGH, 'cover-2-trap']],
  ['shell.three-high', ['drop-eight', 'prevent', 'cover-2-middle-run-through', 'cover-3']],
  ['shell.four-across', ['cover-4', 'quarter-quarter-half', 'prevent']],
]);

/**
 * Coverages that say nothing of how many were deep, so that no shell lies about them: the families where the type was
 * not seen, and checks that are played from several shells. Common practice, no source.
 */
const SAY_NOTHING = ['man', 'zone', 'match', 'box-on-bunch', 'red-zone-zone'];

/**
 * Whether a coverage is a disguise under a shell: 1 yes, 0 no, -1 where the pair does not settle it.
 *
 * @param shellId    - canonical id of the shell shown
 * @param coverageId - canonical id of the coverage played
 * @param announced  - shell code -> coverage names after the dot of their code
 * @throws DomainError `vocabulary.unknown_code` for a coverage that the vocabulary does not have
 */
export function disguiseOf(
  shellId: number,
  coverageId: number,
  vocabulary: Vocabulary,
  announced: ReadonlyMap<string, readonly string[]>,
): 1 | 0 | -1 {
  const names = announced.get(vocabulary.byId(shellId)?.code ?? '');
  const idOf = (name: string): number => vocabulary.idOfCode(`coverage.${name}`);
  if (names === undefined || SAY_NOTHING.some((name) => idOf(name) === coverageId)) return -1;
  return names.some((name) => vocabulary.isWithin(coverageId, idOf(name))) ? 0 : 1;
}
