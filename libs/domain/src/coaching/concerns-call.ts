import type { Vocabulary } from '../charting/vocabulary.js';
import { TERM_PARTS, type NoteTerms } from './note.js';

/**
 * Whether a note is about a call: it names a part of the call, and no part of it otherwise. What either of them leaves
 * open is no contradiction, and a term stands for the more special ones under it: a note on a family is about its
 * concepts, one on a concept from one formation is about the concept.
 *
 * @param call - parts that are left out are open; terms canonical
 */
export function concernsCall(note: NoteTerms, call: Partial<NoteTerms>, vocabulary: Vocabulary): boolean {
  const both = TERM_PARTS.flatMap((part) => {
    const [ofNote, ofCall] = [note[part], call[part] ?? null];
    return ofNote === null || ofCall === null ? [] : [[ofNote, ofCall] as const];
  });
  const fits = ([one, other]: readonly [number, number]): boolean =>
    vocabulary.isWithin(one, other) || vocabulary.isWithin(other, one);
  return both.length > 0 && both.every(fits);
}
