import { normaliseTerm } from './normalise-term.js';
import type { PlayValue } from './play-columns.js';
import { playField } from './play-fields.js';
import { readCell, saysUnknown } from './read-cell.js';
import { placeOf } from './reconcile-scope.js';
import {
  readMeaning,
  SHEET_KEYS,
  targetOf,
  type ReadMeaning,
  type SheetColumn,
  type SheetKey,
  type WordMeaning,
} from './sheet-mapping.js';
import { CELL_READS, readNumbers, type CellRead } from './sheet-mapping-reads.js';
import { canBeSplitInto, cellSplitter, wordsOf, type FieldValue } from './split-cell.js';
import type { Vocabulary } from './vocabulary.js';

/** What is wrong with a cell, or what has to be asked about it; the same cell of a column is told once a sheet. */
export interface CellFinding {
  /** Of the sheet, since that is where the person looks. */
  readonly header: string;
  readonly found: string;
  /** Said when asked: looking for what was meant takes a while. */
  readonly expected: string;
}

/** Words of a cell that say nothing that anyone knows, or that contradict each other. */
export interface CellLeftover {
  readonly header: string;
  readonly cell: string;
  readonly words: readonly string[];
  readonly reason: 'not understood' | 'contradicts itself';
}

/** All that one cell says, kept for the next row with the same cell. */
export interface CellReading {
  readonly values: readonly (readonly [place: number, value: PlayValue])[];
  readonly keys: readonly (readonly [SheetKey, string])[];
  readonly goalToGo?: boolean;
  readonly offenseIsOther?: boolean;
  readonly findings?: readonly CellFinding[];
  readonly leftovers?: readonly CellLeftover[];
}

export type CellReader = (cell: string) => CellReading;

/** Words that people repeat fit many times over; a column of free text must not fill the memory. */
const KEPT_CELLS = 20_000;
const LONGEST_KEPT = 200;

/** Facts that stand together are a few words; more is prose, and taking it apart costs time for nothing. */
const LONGEST_SPLIT = 500;

export const SAYS_NOTHING: CellReading = { values: [], keys: [] };
export function meaningsOf(words: readonly WordMeaning[], vocabulary: Vocabulary): readonly ReadMeaning[] {
  return words.flatMap((word) => {
    const meaning = readMeaning(word, vocabulary);
    return 'says' in meaning ? [meaning] : [];
  });
}

function kept(read: CellReader): CellReader {
  const known = new Map<string, CellReading>();
  return (cell) => {
    const before = known.get(cell);
    if (before !== undefined) return before;
    const reading = read(cell);
    if (known.size < KEPT_CELLS && cell.length <= LONGEST_KEPT) known.set(cell, reading);
    return reading;
  };
}

/** Reads the cells of one column. */
export function columnReader(
  header: string,
  column: SheetColumn,
  us: string,
  answers: readonly ReadMeaning[],
  vocabulary: Vocabulary,
): CellReader {
  if (column.ignore === true) return () => SAYS_NOTHING;
  const ownWords = meaningsOf(column.words ?? [], vocabulary);
  if (column.split !== undefined) {
    return kept(splitReader(header, column.split, [...answers, ...ownWords], vocabulary));
  }
  const field = playField(targetOf(column.to ?? '') ?? '');
  // What words mean in the whole sheet is no matter of notes, names and numbers.
  const holdsWords = field !== undefined && canBeSplitInto(field);
  const words = holdsWords ? [...answers, ...ownWords] : ownWords;
  const wholeCells = new Map(words.map((meaning) => [normaliseTerm(meaning.word), meaning]));
  const otherwise = cellReader(header, column, us, vocabulary);
  return kept((cell) => {
    const meaning = wholeCells.get(normaliseTerm(cell));
    if (meaning === undefined) return saysUnknown(cell) ? SAYS_NOTHING : otherwise(cell);
    return { values: placed(meaning.says), keys: meaning.keys };
  });
}

function cellReader(header: string, column: SheetColumn, us: string, vocabulary: Vocabulary): CellReader {
  if (column.possession !== undefined) return possessionReader(header, column.possession, us);
  if (column.read !== undefined) return numberReader(header, column.read, column, vocabulary);
  return plainReader(header, column, vocabulary);
}

function placed(says: readonly FieldValue[]): CellReading['values'] {
  return says.map(({ field, value }) => [placeOf(field), value] as const);
}

function finding(header: string, found: string, expected: string): CellReading {
  return { ...SAYS_NOTHING, findings: [{ header, found, expected }] };
}

function plainReader(header: string, { to }: SheetColumn, vocabulary: Vocabulary): CellReader {
  const target = targetOf(to ?? '');
  const field = playField(target ?? '');
  if (field !== undefined) return (cell) => fieldReading(header, field, cell, cell, vocabulary);
  const key = SHEET_KEYS.find((candidate) => candidate === target);
  return (cell) => (key === undefined ? SAYS_NOTHING : { values: [], keys: [[key, cell.trim()]] });
}

function fieldReading(
  header: string,
  field: NonNullable<ReturnType<typeof playField>>,
  cell: string,
  text: string,
  vocabulary: Vocabulary,
): CellReading {
  const reading = readCell(field, text, vocabulary);
  if (reading.ok) return { values: [[placeOf(field.name), reading.value]], keys: [] };
  return { ...SAYS_NOTHING, findings: [new UnreadCell(header, cell, reading)] };
}

/** What was expected is told when asked, as `readCell` tells it. */
class UnreadCell implements CellFinding {
  readonly #reading: { readonly expected: string };

  constructor(
    readonly header: string,
    readonly found: string,
    reading: { readonly expected: string },
  ) {
    this.#reading = reading;
  }

  get expected(): string {
    return this.#reading.expected;
  }
}

function possessionReader(
  header: string,
  { us, them }: NonNullable<SheetColumn['possession']>,
  player: string,
): CellReader {
  const ours = new Set(us.map(normaliseTerm));
  const theirs = new Set(them.map(normaliseTerm));
  return (cell) => {
    const word = normaliseTerm(cell);
    if (!ours.has(word) && !theirs.has(word)) return finding(header, cell, `one of: ${[...us, ...them].join(', ')}`);
    return { values: [], keys: [['offense', player]], offenseIsOther: theirs.has(word) };
  };
}

function numberReader(header: string, how: CellRead, { to }: SheetColumn, vocabulary: Vocabulary): CellReader {
  return (cell) => {
    const numbers = readNumbers(how, cell);
    if (numbers === null) return finding(header, cell, CELL_READS[how].expected);
    const readings = numbers.flatMap(({ field: name, number }) => {
      const field = playField(name ?? targetOf(to ?? '') ?? '');
      return field === undefined || number === 'goal'
        ? []
        : [fieldReading(header, field, cell, String(number), vocabulary)];
    });
    return {
      values: readings.flatMap(({ values }) => values),
      keys: [],
      goalToGo: numbers.some(({ number }) => number === 'goal'),
      findings: readings.flatMap(({ findings }) => findings ?? []),
    };
  };
}

function splitReader(
  header: string,
  fields: readonly string[],
  words: readonly ReadMeaning[],
  vocabulary: Vocabulary,
): CellReader {
  const names = fields.flatMap((name) => {
    const field = playField(name);
    return field === undefined ? [] : [field.name];
  });
  const split = cellSplitter(names, vocabulary, words);
  const keysOf = new Map(words.map(({ word, keys }) => [wordsOf(word).join(' '), keys]));
  return (cell) => {
    if (cell.length > LONGEST_SPLIT) return finding(header, cell, `at most ${LONGEST_SPLIT} characters to split`);
    const { values, found, questions, conflicts, leftover } = split(cell);
    const left = (lost: readonly string[], reason: CellLeftover['reason']): readonly CellLeftover[] =>
      lost.length === 0 ? [] : [{ header, cell, words: lost, reason }];
    return {
      values: placed(values),
      keys: found.flatMap((phrase) => keysOf.get(phrase) ?? []),
      findings: questions.map((asked) => ({ header, found: asked.words, expected: asked.question })),
      leftovers: [
        ...left(leftover, 'not understood'),
        ...conflicts.flatMap((conflict) => left(conflict.words, 'contradicts itself')),
      ],
    };
  };
}
