import { UNKNOWN_CODE, type PlayColumns } from '../charting/play-columns.js';
import { playField, type CodeFieldName, type ListFieldName } from '../charting/play-fields.js';
import type { Vocabulary } from '../charting/vocabulary.js';

/** One byte a play: 1 where a condition is known to hold, 0 where it does not or the chart does not say. */
export type PlayMask = Uint8Array<ArrayBuffer>;

/** Plays on which a choice field is known to be one of these words. */
export function choiceMask(plays: PlayColumns, name: CodeFieldName, words: readonly string[]): PlayMask {
  if (isUnknown(plays, name)) return new Uint8Array(plays.count);
  const field = playField(name);
  const choices = field?.type === 'choice' ? field.choices : [];
  return codeMask(plays, name, (place) => words.includes(choices[place] ?? ''));
}

/**
 * Plays on which a term field is known to be one of these starter terms or to roll up to one.
 *
 * @param codes - starter codes, such as 'snapResult.incomplete'
 * @throws DomainError `vocabulary.unknown_code`
 */
export function termMask(
  plays: PlayColumns,
  name: CodeFieldName,
  vocabulary: Vocabulary,
  codes: readonly string[],
): PlayMask {
  if (isUnknown(plays, name)) return new Uint8Array(plays.count);
  const ancestors = codes.map((code) => vocabulary.idOfCode(code));
  return codeMask(plays, name, (id) => ancestors.some((ancestor) => vocabulary.isWithin(id, ancestor)));
}

/**
 * Plays whose list is known to hold one of these starter terms or one that rolls up to it.
 *
 * @throws DomainError `vocabulary.unknown_code`
 */
export function listMask(
  plays: PlayColumns,
  name: ListFieldName,
  vocabulary: Vocabulary,
  codes: readonly string[],
): PlayMask {
  if (isUnknown(plays, name)) return new Uint8Array(plays.count);
  const ancestors = codes.map((code) => vocabulary.idOfCode(code));
  const { starts, codes: held, meanings } = plays.list(name);
  const matches = meanings.map((id) => ancestors.some((ancestor) => vocabulary.isWithin(id, ancestor)));
  const mask = new Uint8Array(plays.count);
  for (let play = 0; play < plays.count; play += 1) {
    const end = starts[play + 1] ?? 0;
    for (let at = starts[play] ?? 0; at < end; at += 1) {
      if (matches[held[at] ?? -1] === true) mask[play] = 1;
    }
  }
  return mask;
}

/** Plays on which the chart says something about the field, whatever it says. */
export function knownMask(plays: PlayColumns, name: CodeFieldName): PlayMask {
  return codeMask(plays, name, () => true);
}

/** Of a snap to come hardly anything is known, and then nothing needs to be looked up. */
function isUnknown(plays: PlayColumns, name: CodeFieldName | ListFieldName): boolean {
  return plays.carries(name) && !plays.columns.has(name);
}

function codeMask(plays: PlayColumns, name: CodeFieldName, holds: (meaning: number) => boolean): PlayMask {
  const { codes, meanings } = plays.code(name);
  const mask = new Uint8Array(plays.count);
  // Shifted by one, so that the code of an unknown is a place like any other: looking up -1 is many times slower.
  const matches = new Uint8Array(meanings.length + 1);
  let isThere = false;
  for (let code = 0; code < meanings.length; code += 1) {
    if (!holds(meanings[code] ?? UNKNOWN_CODE)) continue;
    matches[code + 1] = 1;
    isThere = true;
  }
  if (!isThere) return mask;
  for (let play = 0; play < plays.count; play += 1) {
    mask[play] = matches[(codes[play] ?? UNKNOWN_CODE) + 1] ?? 0;
  }
  return mask;
}
