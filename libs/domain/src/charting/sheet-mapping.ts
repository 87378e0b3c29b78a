import { PLAY_FIELDS, playField, type PlayFieldName } from './play-fields.js';
import { readCell } from './read-cell.js';
import { CELL_READS, type CellRead } from './sheet-mapping-reads.js';
import { canBeSplitInto, wordsOf, type Answer } from './split-cell.js';
import type { Vocabulary } from './vocabulary.js';

/** Columns of a sheet of plays that are no fields of the catalogue. */
export const SHEET_KEYS = ['game', 'chart', 'order', 'offense', 'note'] as const;
export type SheetKey = (typeof SHEET_KEYS)[number];

/** A word of the person's own and the fields that it fills, each as it would stand in a sheet; none to skip the word. */
export interface WordMeaning {
  readonly word: string;
  readonly is: Readonly<Record<string, string>>;
}

/** What is done with one column of a person's sheet: exactly one of `to`, `split`, `read` with its own fields, `ignore`. */
export interface SheetColumn {
  /** As in the sheet; a header that is there twice is "Notes", "Notes (2)", one that is empty "column 5". */
  readonly header: string;
  /** The field or key that the whole cell fills. */
  readonly to?: string | undefined;
  /** The fields that the words of a cell are split over. */
  readonly split?: readonly string[] | undefined;
  /** How numbers are written; as they are when left out. */
  readonly read?: CellRead | undefined;
  /** Words of this column; they go before the words that hold for the whole sheet. */
  readonly words?: readonly WordMeaning[] | undefined;
  /** Cells that say who has the ball without a name. */
  readonly possession?: { readonly us: readonly string[]; readonly them: readonly string[] } | undefined;
  readonly ignore?: boolean | undefined;
}

/** How a person's own sheet is to be understood. */
export interface SheetMapping {
  readonly columns: readonly SheetColumn[];
  /** Fields and keys that the sheet need not say: they count where no column of the row says otherwise. */
  readonly constants: Readonly<Record<string, string>>;
  /** What the person means by words, in all columns. */
  readonly answers: readonly WordMeaning[];
  /** The player whom the sheet calls "us" in its possession column. */
  readonly us: string | null;
  /** Whether a column numbers the plays, or they are numbered as they stand, each game from 1. */
  readonly order: 'column' | 'rows';
}

export interface MappingProblem {
  /** Path inside the mapping: `columns.2.to`. */
  readonly field: string;
  readonly found: string;
  readonly expected: string;
}

/** "Yards to goal", "yards_to_goal" and "yardsToGoal" are the same header. */
export function squeezeHeader(header: string): string {
  return header
    .normalize('NFKD')
    .replace(/[^\p{Letter}\p{Number}]/gu, '')
    .toLowerCase();
}

/** The names by which a mapping calls the columns of a sheet: each once, and none empty. */
export function columnLabels(headers: readonly string[]): readonly string[] {
  const seen = new Map<string, number>();
  return headers.map((header, column) => {
    const label = header.trim() === '' ? `column ${column + 1}` : header.trim();
    const times = (seen.get(squeezeHeader(label)) ?? 0) + 1;
    seen.set(squeezeHeader(label), times);
    return times === 1 ? label : `${label} (${times})`;
  });
}

/** The same for sheets with the same headers, in whatever order, case and spelling of spaces. */
export function headerFingerprint(headers: readonly string[]): string {
  return columnLabels(headers).map(squeezeHeader).sort().join('\n');
}

/** The field or key of that name, whatever its case and spaces; null for none. */
export function targetOf(name: string): PlayFieldName | SheetKey | null {
  return TARGETS.get(squeezeHeader(name)) ?? null;
}

const TARGETS: ReadonlyMap<string, PlayFieldName | SheetKey> = new Map(
  [...SHEET_KEYS, ...PLAY_FIELDS.map(({ name }) => name)].map((name) => [squeezeHeader(name), name]),
);

/** A meaning with its fields read as values, and its keys as text. */
export interface ReadMeaning extends Answer {
  readonly keys: readonly (readonly [SheetKey, string])[];
}

/** @returns the meaning, or what is wrong with it */
export function readMeaning({ word, is }: WordMeaning, vocabulary: Vocabulary): ReadMeaning | MappingProblem {
  const says: { field: PlayFieldName; value: Answer['says'][number]['value'] }[] = [];
  const keys: (readonly [SheetKey, string])[] = [];
  for (const [name, text] of Object.entries(is)) {
    const field = playField(name);
    const key = SHEET_KEYS.find((candidate) => candidate === name);
    if (key !== undefined) keys.push([key, text]);
    else if (field === undefined) return { field: name, found: name, expected: 'a field of the catalogue' };
    else {
      const reading = readCell(field, text, vocabulary);
      if (!reading.ok) return { field: name, found: text, expected: reading.expected };
      says.push({ field: field.name, value: reading.value });
    }
  }
  return { word, says, keys };
}

/** Everything about a mapping that cannot be, before any sheet is read with it. */
export function checkMapping(mapping: SheetMapping, vocabulary: Vocabulary): readonly MappingProblem[] {
  const problems: MappingProblem[] = [];
  const refuse = (field: string, found: string, expected: string): void => {
    problems.push({ field, found, expected });
  };
  const checkWords = (at: string, words: readonly WordMeaning[]): void => {
    words.forEach((meaning, place) => {
      if (wordsOf(meaning.word).length === 0) refuse(`${at}.${place}.word`, meaning.word, 'a letter or a digit');
      const read = readMeaning(meaning, vocabulary);
      if ('expected' in read) refuse(`${at}.${place}.is.${read.field}`, read.found, read.expected);
    });
  };
  const headers = new Set<string>();
  mapping.columns.forEach((column, place) => {
    const at = `columns.${place}`;
    if (headers.has(squeezeHeader(column.header))) refuse(`${at}.header`, column.header, 'each header once');
    headers.add(squeezeHeader(column.header));
    checkColumn(at, column, refuse);
    checkWords(`${at}.words`, column.words ?? []);
    if (column.possession !== undefined && mapping.us === null) refuse('us', '', 'the player whom the sheet calls us');
  });
  checkWords('answers', mapping.answers);
  const constants = readMeaning({ word: 'constants', is: mapping.constants }, vocabulary);
  if ('expected' in constants) refuse(`constants.${constants.field}`, constants.found, constants.expected);
  return problems;
}

function checkColumn(
  at: string,
  { to, split, read, possession, ignore }: SheetColumn,
  refuse: (field: string, found: string, expected: string) => void,
): void {
  const ownFields = read === undefined ? [] : CELL_READS[read].fills;
  const ways = [to !== undefined, split !== undefined, ignore === true, possession !== undefined, ownFields.length > 0];
  if (ways.filter(Boolean).length !== 1) {
    refuse(at, '', 'one of: to, split, ignore, possession, or a read that knows its own fields');
  }
  if (to !== undefined && targetOf(to) === null) refuse(`${at}.to`, to, 'a field of the catalogue, or a key');
  if (read === 'first number' && playField(to ?? '')?.type !== 'number') {
    refuse(`${at}.to`, to ?? '', 'a field that is a number');
  }
  const kinds = new Set<string>();
  split?.forEach((name, place) => {
    const field = playField(name);
    if (field === undefined || !canBeSplitInto(field)) {
      refuse(`${at}.split.${place}`, name, 'a field whose values are words');
      return;
    }
    const kind = 'kind' in field ? field.kind : field.name;
    if (kinds.has(kind)) refuse(`${at}.split.${place}`, name, 'at most one field of a kind');
    kinds.add(kind);
  });
  if (split?.length === 0) refuse(`${at}.split`, '', 'at least one field');
}
