import { normaliseTerm } from './normalise-term.js';
import type { PlayValue } from './play-columns.js';
import { FLAG, type ChoiceField, type NumberField, type PlayField, type TermKind } from './play-fields.js';
import type { Vocabulary } from './vocabulary.js';

/** What a cell turned out to hold, or what was expected instead, in words for the person who charted it. */
export type CellReading =
  { readonly ok: true; readonly value: PlayValue } | { readonly ok: false; readonly expected: string };

/** Ways in which people write that they could not see it. "None" is not among them: none is something seen. */
const UNKNOWN_WORDS: ReadonlySet<string> = new Set(['', 'unknown', '?', 'n a']);

/** Whether a text says that something could not be seen, rather than that there was none. */
export function saysUnknown(text: string): boolean {
  return UNKNOWN_WORDS.has(normaliseTerm(text));
}

const YES: ReadonlySet<string> = new Set(['yes', 'y', 'true', '1', 'x']);
const NO: ReadonlySet<string> = new Set(['no', 'n', 'false', '0']);

/** Fields in which minutes and seconds may be written as m:ss or h:mm:ss. */
const CLOCK_FIELDS: ReadonlySet<string> = new Set(['clockSeconds', 'lineUpSecond', 'snapSecond']);

const LONGEST_LIST = 20;

/**
 * Reads one cell of a sheet, or one property of a JSON record, as the value of a field. Words are compared without
 * regard to case, accents, dashes and spacing.
 *
 * @param field      - entry of the catalogue
 * @param cell       - text, number, boolean, array of texts (lists only), null or undefined
 * @param vocabulary - the reader's terms
 */
export function readCell(field: PlayField, cell: unknown, vocabulary: Vocabulary): CellReading {
  if (field.type === 'terms') return readTerms(field.kind, cell, vocabulary);
  const text = textOf(cell);
  if (text === null) return refuse(`${aWordFor(field)}, as text`);
  if (saysUnknown(text)) return { ok: true, value: null };
  switch (field.type) {
    case 'number':
      return readNumber(field, text);
    case 'choice':
      return readChoice(field, text);
    case 'term':
      return readTerm(field.kind, text, vocabulary);
  }
}

function textOf(cell: unknown): string | null {
  if (cell === null || cell === undefined) return '';
  if (typeof cell === 'string') return cell.trim();
  if (typeof cell === 'number' || typeof cell === 'boolean') return String(cell);
  return null;
}

function readNumber(field: NumberField, text: string): CellReading {
  const value = CLOCK_FIELDS.has(field.name) ? seconds(text) : Number(/^[+-]?\d+$/.test(text) ? text : Number.NaN);
  if (Number.isInteger(value) && value >= field.minimum && value <= field.maximum) return { ok: true, value };
  return refuse(aWordFor(field));
}

/** Whole seconds of "95", "95.4", "1:35" or "1:02:03"; NaN for anything else. */
function seconds(text: string): number {
  if (/^\d+(\.\d+)?$/.test(text)) return Math.floor(Number(text));
  if (!/^\d{1,2}(:[0-5]\d){1,2}$/.test(text)) return Number.NaN;
  return text.split(':').reduce((total, part) => total * 60 + Number(part), 0);
}

function readChoice(field: ChoiceField, text: string): CellReading {
  const word = normaliseTerm(text);
  const place = field.choices.findIndex((choice) => normaliseTerm(choice) === word);
  if (place >= 0) return { ok: true, value: place };
  if (field.choices === FLAG && YES.has(word)) return { ok: true, value: FLAG.indexOf('yes') };
  if (field.choices === FLAG && NO.has(word)) return { ok: true, value: FLAG.indexOf('no') };
  return refuse(aWordFor(field));
}

function readTerm(kind: TermKind, text: string, vocabulary: Vocabulary): CellReading {
  const found = vocabulary.find(kind, text);
  switch (found.status) {
    case 'found':
      return { ok: true, value: found.term.id };
    case 'ask':
      return refuse(`a word with one meaning; ${found.question}`);
    case 'unknown':
      return new NoTerm(kind, found);
  }
}

/** Told when asked, as `Vocabulary.find` tells what may have been meant. */
class NoTerm {
  readonly ok = false;
  readonly #kind: TermKind;
  readonly #found: { readonly suggestions: readonly string[] };

  constructor(kind: TermKind, found: { readonly suggestions: readonly string[] }) {
    this.#kind = kind;
    this.#found = found;
  }

  get expected(): string {
    return aTermOf(this.#kind, this.#found.suggestions);
  }
}

/** What was expected where a word is no term: what may have been meant, and where all terms of the kind are listed. */
export function aTermOf(kind: TermKind, suggestions: readonly string[]): string {
  const nearest = suggestions.length > 0 ? `; nearest: ${suggestions.join(', ')}` : '';
  return `a term of kind ${kind}${nearest}; all: /v1/terms?kind=${kind}`;
}

function readTerms(kind: TermKind, cell: unknown, vocabulary: Vocabulary): CellReading {
  if (cell === null || cell === undefined) return { ok: true, value: null };
  const parts = Array.isArray(cell) ? (cell as unknown[]) : typeof cell === 'string' ? cell.split(';') : null;
  if (parts === null) return refuse(`terms of kind ${kind}: an array, or text with ; between them`);
  if (typeof cell === 'string' && saysUnknown(cell)) return { ok: true, value: null };
  if (parts.length > LONGEST_LIST) return refuse(`at most ${LONGEST_LIST} terms of kind ${kind}`);
  const ids: number[] = [];
  for (const part of parts) {
    if (typeof part !== 'string') return refuse(`terms of kind ${kind}, each as text`);
    const reading = readTerm(kind, part.trim(), vocabulary);
    if (!reading.ok) return reading;
    if (typeof reading.value === 'number') ids.push(reading.value);
  }
  return { ok: true, value: ids };
}

function refuse(expected: string): CellReading {
  return { ok: false, expected };
}

function aWordFor(field: PlayField): string {
  switch (field.type) {
    case 'number': {
      const clock = CLOCK_FIELDS.has(field.name) ? ', or m:ss' : '';
      return `a whole number from ${field.minimum} to ${field.maximum}${clock}`;
    }
    case 'choice':
      return `one of: ${field.choices.join(', ')}`;
    case 'term':
    case 'terms':
      return `a term of kind ${field.kind}`;
  }
}
