import { PLAY_TYPES, playField, type TermKind } from '../../charting/play-fields.js';
import { readCell } from '../../charting/read-cell.js';
import { squeezeHeader, targetOf, type SheetColumn, type SheetMapping } from '../../charting/sheet-mapping.js';
import type { CellFinding } from '../../charting/sheet-mapping-cells.js';
import { useByHeader } from '../../charting/sheet-mapping-headers.js';
import { normaliseTerm } from '../../charting/normalise-term.js';
import { starterVocabulary, Vocabulary, type Term } from '../../charting/vocabulary.js';
import { STARTER_TERMS } from '../../charting/starter-vocabulary.js';

/** More different words than this in a column of terms are prose, not a vocabulary. */
const MOST_OWN_WORDS = 400;

/**
 * What is done with each column of a sheet: as the mapping says, else by its own name, else, where there is no mapping, by
 * what such a header usually means; null for one that is not used.
 */
export function sheetColumns(labels: readonly string[], given: SheetMapping | null): readonly (SheetColumn | null)[] {
  const byHeader = new Map(given?.columns.map((column) => [squeezeHeader(column.header), column]));
  const taken = new Set<string>();
  const free = (to: string): boolean => !taken.has(to) && taken.add(to).size > 0;
  const named = labels.map((label): SheetColumn | null => {
    const mapped = byHeader.get(squeezeHeader(label));
    if (mapped !== undefined) return mapped;
    const to = targetOf(label);
    return to !== null && free(to) ? { header: label, to } : null;
  });
  if (given !== null) return named;
  return labels.map((label, place) => {
    const use = named[place] === null ? useByHeader(label) : null;
    return use?.to !== undefined && free(use.to) ? { header: label, ...use } : (named[place] ?? null);
  });
}

/**
 * What a sheet of another making needs so that none of its cells stops the reading: a vocabulary that knows the sheet's
 * own words, a mapping that ignores what it does not know, and numbers without their decimals.
 */
export class LenientCells {
  readonly unread = new Map<string, { readonly cells: number; readonly example: string }>();
  readonly ownWords = new Map<string, number>();
  readonly vocabulary: Vocabulary;
  private readonly columns: readonly (SheetColumn | null)[];
  private readonly isNumber: readonly boolean[];

  constructor(
    private readonly labels: readonly string[],
    rows: readonly (readonly string[])[],
    private readonly given: SheetMapping | null,
  ) {
    this.columns = sheetColumns(labels, given);
    this.isNumber = this.columns.map((column) => playField(column?.to ?? '')?.type === 'number');
    this.vocabulary = this.withOwnWords(rows);
  }

  /** The mapping that reads this sheet; columns in `elsewhere` are read by others. */
  mapping(elsewhere: ReadonlySet<number>): SheetMapping {
    const columns = this.labels.map((header, place): SheetColumn => {
      const column = this.columns[place] ?? null;
      return column === null || (elsewhere.has(place) && column.to === undefined) ? { header, ignore: true } : column;
    });
    const { constants = {}, answers = [], us = null, order = 'column' } = this.given ?? {};
    return { columns, constants, answers, us, order };
  }

  ignored(elsewhere: ReadonlySet<number>): string[] {
    return this.labels.filter((_, place) => (this.columns[place] ?? null) === null && !elsewhere.has(place));
  }

  /** Columns that are read as a field of another name, and that field. */
  get guessed(): ReadonlyMap<string, string> {
    const guesses = this.given === null ? this.columns : [];
    return new Map(
      guesses.flatMap((column) =>
        column?.to === undefined || squeezeHeader(column.header) === squeezeHeader(column.to)
          ? []
          : [[column.header, column.to] as const],
      ),
    );
  }

  countUnread({ header, found }: CellFinding): void {
    const { cells, example } = this.unread.get(header) ?? { cells: 0, example: found };
    this.unread.set(header, { cells: cells + 1, example });
  }

  /**
   * "3.0" is three and "-0.4" is nought: other programs write whole numbers so, with spaces around them at times. Ways of
   * writing nothing are empty. A play type is what its words hold: "QB_Kneel" is a kneel.
   */
  tidy(row: readonly string[]): string[] {
    return row.map((untrimmed, column) => {
      const cell = untrimmed.trim();
      if (NOTHING.has(cell)) return '';
      if (this.columns[column]?.to === 'playType') return playTypeIn(cell) ?? cell;
      if (this.isNumber[column] !== true || !/^[+-]?\d+\.\d*$/.test(cell)) return cell;
      return String(Math.round(Number(cell)) + 0);
    });
  }

  /** The starter terms, and a term for every word of a column of terms that they do not have. */
  private withOwnWords(rows: readonly (readonly string[])[]): Vocabulary {
    const starter = starterVocabulary();
    const own: Term[] = [];
    const known = new Set<string>();
    this.columns.forEach((column, place) => {
      const field = playField(targetOf(column?.to ?? '') ?? '');
      if (column?.words !== undefined || field === undefined || !('kind' in field)) return;
      const words = new Map<string, string>();
      const seen = new Set<string>();
      for (const row of rows) {
        const cell = row[place] ?? '';
        if (cell === '' || NOTHING.has(cell.trim()) || seen.has(cell)) continue;
        seen.add(cell);
        for (const part of field.type === 'terms' ? cell.split(';') : [cell]) {
          if (!readCell({ ...field, type: 'term' }, part, starter).ok) words.set(normaliseTerm(part), part.trim());
        }
        if (words.size > MOST_OWN_WORDS) break;
      }
      words.delete('');
      if (words.size === 0 || words.size > MOST_OWN_WORDS) return;
      this.ownWords.set(this.labels[place] ?? '', words.size);
      for (const [word, name] of words) {
        const key = `${field.kind}\n${word}`;
        if (known.has(key)) continue;
        known.add(key);
        own.push(ownTerm(STARTER_TERMS.length + 1 + own.length, field.kind, name));
      }
    });
    return own.length === 0 ? starter : new Vocabulary([...starterTerms(starter), ...own]);
  }
}

function playTypeIn(cell: string): string | undefined {
  const words = ` ${normaliseTerm(cell)} `;
  return PLAY_TYPES.find((type) => words.includes(` ${normaliseTerm(type)} `));
}

const NOTHING: ReadonlySet<string> = new Set(['', 'NA', 'N/A', 'NaN', 'nan', 'null', 'NULL', '-', '.']);

function ownTerm(id: number, kind: TermKind, name: string): Term {
  return { id, kind, code: null, name, parentId: null, starterId: null, synonyms: [] };
}

function starterTerms(starter: Vocabulary): Term[] {
  return STARTER_TERMS.flatMap((_, place) => starter.byId(place + 1) ?? []);
}
