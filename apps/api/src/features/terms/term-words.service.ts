import { Injectable } from '@nestjs/common';
import type { TermKind } from '#domain/charting/play-fields.js';
import type { ClanDatabase } from '../../database/clan-transaction.js';
import { TermsService } from './terms.service.js';

/** Fields of a record that hold one term each, and of which kind. */
export type TermFields<Name extends string> = Readonly<Record<Name, TermKind>>;

/** Such a record as stored, and as people read it. */
export type StoredTerms<Name extends string> = Readonly<Record<Name, number | null>>;
export type WordsOf<Name extends string> = Readonly<Partial<Record<Name, string | null>>>;

/** Records that hold a few terms outside of plays, from words to ids and back. */
@Injectable()
export class TermWordsService {
  constructor(private readonly terms: TermsService) {}

  /** The words of each row, in the order of the rows. */
  async words<Name extends string>(
    db: ClanDatabase,
    names: readonly Name[],
    rows: readonly StoredTerms<NoInfer<Name>>[],
  ): Promise<Readonly<Record<Name, string | null>>[]> {
    const ids = rows.flatMap((row) => names.map((name) => row[name]).filter((id) => id !== null));
    const nameOf =
      ids.length === 0
        ? (): null => null
        : await this.terms.names(db, await this.terms.vocabulary(db), new Set<number>(ids));
    return rows.map((row) => record(names, (name) => (row[name] === null ? null : nameOf(row[name]))));
  }

  /**
   * What the words stand for. A word that is what it was before keeps the very term that it was written with.
   *
   * @throws ApiError `request.invalid` for a word that is not in the vocabulary
   */
  async ids<Name extends string>(
    db: ClanDatabase,
    fields: TermFields<Name>,
    words: WordsOf<NoInfer<Name>>,
    before: { readonly words: WordsOf<NoInfer<Name>>; readonly ids: StoredTerms<NoInfer<Name>> } | null = null,
  ): Promise<StoredTerms<Name>> {
    const vocabulary = await this.terms.vocabulary(db);
    return record(namesOf(fields), (name) => {
      const word = words[name] ?? null;
      if (word === null) return null;
      if (before !== null && before.words[name] === word) return before.ids[name];
      return this.terms.idOf(vocabulary, fields[name], name, word);
    });
  }
}

export function namesOf<Name extends string>(fields: TermFields<Name>): Name[] {
  // The keys of an object that was written out with exactly these.
  return Object.keys(fields) as Name[];
}

function record<Name extends string, Value>(
  names: readonly Name[],
  valueOf: (name: Name) => Value,
): Record<Name, Value> {
  // Built from exactly these names.
  return Object.fromEntries(names.map((name) => [name, valueOf(name)])) as Record<Name, Value>;
}
