import { normaliseTerm } from './normalise-term.js';
import type { PlayValue } from './play-columns.js';
import { FLAG, playField, type PlayField, type PlayFieldName } from './play-fields.js';
import { saysUnknown } from './read-cell.js';
import type { Vocabulary } from './vocabulary.js';

/** One field of a play and what it holds. */
export interface FieldValue {
  readonly field: PlayFieldName;
  readonly value: PlayValue;
}

/** A word or phrase of a person's own, and all that it says; nothing, where it is there to be skipped. */
export interface Answer {
  readonly word: string;
  readonly says: readonly FieldValue[];
}

/** Words of a cell that mean several things, and what to ask about them. */
export interface CellQuestion {
  readonly words: string;
  readonly question: string;
}

/** Words of a cell that say different things of one field. */
export interface CellConflict {
  readonly field: PlayFieldName;
  readonly words: readonly string[];
}

/** What one cell turned out to hold. Every word of it is found, asked about or left over, and none twice. */
export interface SplitCell {
  /** In the order of the fields that the column holds, then what only answers say. */
  readonly values: readonly FieldValue[];
  /** Words and phrases that were understood, from left to right. */
  readonly found: readonly string[];
  readonly questions: readonly CellQuestion[];
  readonly conflicts: readonly CellConflict[];
  /** Runs of words that nothing explains, from left to right. */
  readonly leftover: readonly string[];
}

/** What a phrase may be: exactly one thing that it says, or a question. */
type Meaning = { readonly says: readonly FieldValue[] } | { readonly question: string; readonly says?: undefined };

/** Ways in which people write a side. */
const SIDE_WORDS: ReadonlyMap<string, readonly string[]> = new Map([
  ['left', ['lt', 'l']],
  ['right', ['rt', 'r']],
]);

const BETWEEN_WORDS = /[\s,;:.()[\]+&|]+/u;

const NOTHING: SplitCell = { values: [], found: [], questions: [], conflicts: [], leftover: [] };

/** Whether words can tell values of the field apart: a yes in a cell of many words does not say to what. */
export function canBeSplitInto(field: PlayField): boolean {
  return field.type === 'term' || field.type === 'terms' || (field.type === 'choice' && field.choices !== FLAG);
}

/**
 * Splits cells that hold several facts together by their words: "gun trips rt jet" is backfield, formation, strength and
 * motion. Common practice, no source: longest phrases first, from left to right among equally long ones, and none
 * overlaps another. The words are those of the vocabulary in the kinds of the fields, the choices of a field, left and
 * right as lt, rt, l and r, and the person's own answers, which go first. Where two phrases name a term and one that it
 * rolls up to, the narrower counts. Deterministic.
 *
 * What several fields of the column know by the same word, or what is on the list of words that are never guessed and in
 * none of the kinds, is asked about. Nothing is corrected: a slip is left over.
 *
 * @param fields  - what the column holds; at most one field of a kind, see `canBeSplitInto`
 * @param answers - the person's own words
 * @returns reader of one cell
 */
export function cellSplitter(
  fields: readonly PlayFieldName[],
  vocabulary: Vocabulary,
  answers: readonly Answer[],
): (cell: string) => SplitCell {
  const phrases = phraseTable(fields, vocabulary, answers);
  const longest = Math.max(1, ...Array.from(phrases.keys(), (phrase) => phrase.split(' ').length));
  const meaningOf = (phrase: string): Meaning | null => {
    const meaning = phrases.get(phrase);
    if (meaning !== undefined) return meaning;
    const [field] = fields;
    // Any kind will do: a word that no kind of the column lists is asked about in all of them alike.
    const kind = field === undefined ? undefined : kindOf(field);
    const found = vocabulary.find(kind ?? 'formation', phrase);
    return found.status === 'ask' ? { question: found.question } : null;
  };
  return (cell) => {
    if (saysUnknown(cell)) return NOTHING;
    const words = wordsOf(cell);
    const matches = takeLongestFirst(words, longest, meaningOf);
    return resolve(words, matches, fields, vocabulary);
  };
}

/** The words of a text as they are compared. */
export function wordsOf(text: string): readonly string[] {
  return normaliseTerm(text)
    .split(BETWEEN_WORDS)
    .filter((word) => word !== '');
}

function kindOf(name: PlayFieldName): Parameters<Vocabulary['rows']>[0] | undefined {
  const field = playField(name);
  return field?.type === 'term' || field?.type === 'terms' ? field.kind : undefined;
}

function phraseTable(
  fields: readonly PlayFieldName[],
  vocabulary: Vocabulary,
  answers: readonly Answer[],
): ReadonlyMap<string, Meaning> {
  const options = new Map<string, FieldValue[]>();
  const offer = (text: string, field: PlayFieldName, value: PlayValue): void => {
    const phrase = wordsOf(text).join(' ');
    if (phrase !== '') options.set(phrase, [...(options.get(phrase) ?? []), { field, value }]);
  };
  for (const name of fields) {
    for (const [text, value] of wordsForField(name, vocabulary)) offer(text, name, value);
  }
  const table = new Map<string, Meaning>();
  for (const [phrase, offered] of options) {
    const fieldsOffered = new Set(offered.map(({ field }) => field));
    table.set(
      phrase,
      fieldsOffered.size === 1
        ? { says: offered.slice(0, 1) }
        : { question: `Is "${phrase}" here ${[...fieldsOffered].join(' or ')}?` },
    );
  }
  for (const { word, says } of answers) table.set(wordsOf(word).join(' '), { says });
  table.delete('');
  return table;
}

function wordsForField(name: PlayFieldName, vocabulary: Vocabulary): readonly (readonly [string, PlayValue])[] {
  const field = playField(name);
  if (field?.type === 'choice') {
    return field.choices.flatMap((choice, place) =>
      [choice, ...(SIDE_WORDS.get(choice) ?? [])].map((text) => [text, place] as const),
    );
  }
  if (field?.type !== 'term' && field?.type !== 'terms') return [];
  return vocabulary.rows(field.kind).flatMap((term) =>
    [term.name, ...term.synonyms].flatMap((text) => {
      // Asked rather than taken from the row: a clan's own word goes before the same word of a starter term.
      const found = vocabulary.find(field.kind, text);
      return found.status === 'found' ? [[text, found.term.id] as const] : [];
    }),
  );
}

interface Match {
  readonly from: number;
  readonly to: number;
  readonly meaning: Meaning;
}

function takeLongestFirst(
  words: readonly string[],
  longest: number,
  meaningOf: (phrase: string) => Meaning | null,
): readonly Match[] {
  const taken = words.map(() => false);
  const matches: Match[] = [];
  for (let length = Math.min(longest, words.length); length >= 1; length -= 1) {
    for (let from = 0; from + length <= words.length; from += 1) {
      const to = from + length;
      if (taken.slice(from, to).includes(true)) continue;
      const meaning = meaningOf(words.slice(from, to).join(' '));
      if (meaning === null) continue;
      matches.push({ from, to, meaning });
      taken.fill(true, from, to);
    }
  }
  return matches.sort((one, other) => one.from - other.from);
}

function resolve(
  words: readonly string[],
  matches: readonly Match[],
  fields: readonly PlayFieldName[],
  vocabulary: Vocabulary,
): SplitCell {
  const found: string[] = [];
  const questions: CellQuestion[] = [];
  const said = new Map<PlayFieldName, { readonly value: PlayValue; readonly words: string }[]>(
    fields.map((field) => [field, []]),
  );
  for (const { from, to, meaning } of matches) {
    const phrase = words.slice(from, to).join(' ');
    if (meaning.says === undefined) {
      questions.push({ words: phrase, question: meaning.question });
      continue;
    }
    found.push(phrase);
    for (const { field, value } of meaning.says) {
      said.set(field, [...(said.get(field) ?? []), { value, words: phrase }]);
    }
  }
  const values: FieldValue[] = [];
  const conflicts: CellConflict[] = [];
  for (const [field, sayings] of said) {
    if (sayings.length === 0) continue;
    const value = together(
      field,
      sayings.map((saying) => saying.value),
      vocabulary,
    );
    if (value === undefined) conflicts.push({ field, words: sayings.map((saying) => saying.words) });
    else values.push({ field, value });
  }
  return { values, found, questions, conflicts, leftover: leftOver(words, matches) };
}

/** What several phrases say of a field together; undefined where they contradict each other. */
function together(name: PlayFieldName, said: readonly PlayValue[], vocabulary: Vocabulary): PlayValue | undefined {
  const field = playField(name);
  if (field?.type === 'terms') {
    return said.flatMap((value) => (value === null ? [] : typeof value === 'number' ? [value] : value));
  }
  const isTerm = field?.type === 'term';
  const covers = (narrow: PlayValue, wide: PlayValue): boolean =>
    narrow === wide ||
    (isTerm && typeof narrow === 'number' && typeof wide === 'number' && vocabulary.isWithin(narrow, wide));
  return said.find((candidate) => said.every((other) => covers(candidate, other)));
}

function leftOver(words: readonly string[], matches: readonly Match[]): readonly string[] {
  const runs: string[] = [];
  let at = 0;
  for (const { from, to } of [...matches, { from: words.length, to: words.length }]) {
    if (from > at) runs.push(words.slice(at, from).join(' '));
    at = to;
  }
  return runs;
}
