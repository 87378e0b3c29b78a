import { Injectable } from '@nestjs/common';
import type { TermKind } from '#domain/charting/play-fields.js';
import type { ClanDatabase } from '../../database/clan-transaction.js';
import { TermsService } from './terms.service.js';

/** Fields of a record that hold one term each, and of which kind. */
export type TermFields<Name extends string> = Readonly<Record<Name, TermKind>>;

/** What a call of either side is made of, as own calls and coaching points name it. */
export const CALL_TERMS = {
  callFamily: 'callFamily',
  concept: 'concept',
  formation: 'formation',
  front: 'front',
  coverage: 'coverage',
  pressure: 'pressure',
} as const satisfies TermFields<string>;

/** Such a record as stored, and as people read it. */
export type StoredTerms<Name extends string> = Readonly<Record<Name, number | null>>;
export type WordsOf<Name extends string> = Readonly<Partial<Record<Name, string | null>>>;

/** What a record said before: in words, as stored, and of which kinds. */
export interface WrittenTerms<Name extends string> {
  readonly words: WordsOf<Name>;
  readonly ids: StoredTerms<Name>;
  readonly fields: TermFields<Name>;
}

/** Records that hold a few terms outside of plays, from words to ids and back. */
@Injectable()
export class TermWordsService {
  constructor(private readonly terms: TermsService) {}

  /** Each row with its words. */
  async inWords<Name extends string, Row extends StoredTerms<Name>, Answer>(
    db: ClanDatabase,
    rows: readonly Row[],
    fieldsOf: (row: Row) => TermFields<Name>,
    answerOf: (row: Row, words: Readonly<Record<Name, string | null>>) => Answer,
  ): Promise<Answer[]> {
    const ids = rows.flatMap((row) =>
      namesOf(fieldsOf(row))
        .map((name) => row[name])
        .filter((id) => id !== null),
    );
    const nameOf =
      ids.length === 0
        ? (): null => null
        : await this.terms.names(db, await this.terms.vocabulary(db), new Set<number>(ids));
    return rows.map((row) => {
      const words = record(namesOf(fieldsOf(row)), (name) => (row[name] === null ? null : nameOf(row[name])));
      return answerOf(row, words);
    });
  }

  /**
   * What the words stand for. A word that is what it was before, and of the same kind, keeps the very term that it was
   * written with.
   *
   * @throws ApiError `request.invalid` for a word that is not in the vocabulary
   */
  async ids<Name extends string>(
    db: ClanDatabase,
    fields: TermFields<Name>,
    words: WordsOf<NoInfer<Name>>,
    before: WrittenTerms<NoInfer<Name>> | null = null,
  ): Promise<StoredTerms<Name>> {
    const vocabulary = await this.terms.vocabulary(db);
    return record(namesOf(fields), (name) => {
      const word = words[name] ?? null;
      if (word === null) return null;
      if (before?.words[name] === word && before.fields[name] === fields[name]) return before.ids[name];
      return this.terms.idOf(vocabulary, fields[name], name, word);
    });
  }
}

function namesOf<Name extends string>(fields: TermFields<Name>): Name[] {
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
