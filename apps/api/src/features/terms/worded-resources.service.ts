import { Injectable } from '@nestjs/common';
import { uuidv7 } from 'uuidv7';
import type { Change } from '../../common/change.js';
import type { Creation } from '../../common/creation.js';
import { page } from '../../common/page.dto.js';
import { found, Resources, type Changeable, type Removable } from '../../common/resources.js';
import { ClanTransactions, type ClanDatabase } from '../../database/clan-transaction.js';
import type { Credential } from '../access/credential.js';
import { TermWordsService, type StoredTerms, type TermFields, type WordsOf } from './term-words.service.js';

interface WithId {
  readonly id: string;
}

/** Where such records are kept. `Found` may say more than what was written, such as who wrote it. */
interface WordedRepository<Row extends WithId, Found extends WithId> {
  find(db: ClanDatabase, id: string): Promise<Found | null>;
  lock(db: ClanDatabase, id: string): Promise<Found | null>;
  insert(db: ClanDatabase, row: Row): Promise<void>;
  update(db: ClanDatabase, row: Row): Promise<void>;
  remove(db: ClanDatabase, id: string): Promise<void>;
}

/** A resource of the clan's own that holds a few terms: stored as ids, written and read as words. */
export interface Worded<
  Name extends string,
  Row extends WithId,
  Found extends WithId & StoredTerms<Name>,
  Input extends object & WordsOf<Name>,
  Answer extends WithId & WordsOf<Name>,
> {
  /** What it is called in problems and in the audit: `own call`. */
  readonly kind: string;
  readonly input: new () => Input;
  readonly repository: WordedRepository<Row, Found>;
  /** Which of its fields hold terms, and of which kind. */
  readonly termsOf: (record: Found | Input | Answer) => TermFields<Name>;
  readonly answerOf: (row: Found, words: Readonly<Record<Name, string | null>>) => Answer;
  /** The part of an answer that may be changed. */
  readonly inputOf: (answer: Answer) => object;
  readonly rowOf: (id: string, input: Input, ids: StoredTerms<Name>) => Row;
  /** What else must hold before it is written. */
  readonly check?: (db: ClanDatabase, input: Input, before: Answer | null) => Promise<void>;
}

/** List, read, create, change and remove for records that hold terms, by the conventions of `Resources`. */
class WordedResource<
  Name extends string,
  Row extends WithId,
  Found extends WithId & StoredTerms<Name>,
  Input extends object & WordsOf<Name>,
  Answer extends WithId & WordsOf<Name>,
> {
  constructor(
    private readonly parts: WordedResourcesService,
    private readonly worded: Worded<Name, Row, Found, Input, Answer>,
  ) {}

  /** @param rows - at most as many as it is told, from the first of the page on, in the order of their ids */
  list(
    credential: Credential,
    limit: number,
    rows: (db: ClanDatabase, most: number) => Promise<Found[]>,
  ): Promise<{ items: Answer[]; next: string | null }> {
    return this.parts.transactions.run(credential, 'read', async (db) => {
      const { items, next } = page(await rows(db, limit + 1), limit, ({ id }) => id);
      return { items: await this.answers(db, items), next };
    });
  }

  read(credential: Credential, id: string): Promise<Answer> {
    return this.parts.transactions.run(credential, 'read', async (db) => found(await this.find(db, id), this.kind));
  }

  create(credential: Credential, creation: Creation, input: Input): Promise<Answer> {
    const { repository, rowOf, termsOf, check } = this.worded;
    return this.parts.resources.create(credential, creation, async (db) => {
      const id = uuidv7();
      await check?.(db, input, null);
      await repository.insert(db, rowOf(id, input, await this.parts.words.ids(db, termsOf(input), input)));
      return found(await this.find(db, id), this.kind);
    });
  }

  change(credential: Credential, id: string, change: Change): Promise<Answer> {
    return this.parts.resources.change(credential, change, this.kept(id));
  }

  remove(credential: Credential, id: string, ifMatch: string): Promise<void> {
    return this.parts.resources.remove(credential, ifMatch, this.kept(id));
  }

  private get kind(): string {
    return this.worded.kind;
  }

  private kept(id: string): Changeable<Answer, Input> & Removable<Answer> {
    const { kind, input, repository, inputOf, rowOf, termsOf, check } = this.worded;
    return {
      kind,
      id,
      input,
      lock: async (db) => this.answer(db, await repository.lock(db, id)),
      inputOf,
      write: async (db, changed, before) => {
        await check?.(db, changed, before);
        const stored = found(await repository.find(db, id), kind);
        const written = { words: before, ids: stored, fields: termsOf(before) };
        await repository.update(
          db,
          rowOf(id, changed, await this.parts.words.ids(db, termsOf(changed), changed, written)),
        );
      },
      read: (db) => this.find(db, id),
      remove: (db) => repository.remove(db, id),
    };
  }

  private async find(db: ClanDatabase, id: string): Promise<Answer | null> {
    return this.answer(db, await this.worded.repository.find(db, id));
  }

  private async answer(db: ClanDatabase, row: Found | null): Promise<Answer | null> {
    return row === null ? null : ((await this.answers(db, [row]))[0] ?? null);
  }

  private answers(db: ClanDatabase, rows: readonly Found[]): Promise<Answer[]> {
    const { answerOf, termsOf } = this.worded;
    return this.parts.words.inWords(db, rows, termsOf, answerOf);
  }
}

/** Gives a feature the conventions of `Resources` for its records that hold terms. */
@Injectable()
export class WordedResourcesService {
  constructor(
    readonly transactions: ClanTransactions,
    readonly resources: Resources,
    readonly words: TermWordsService,
  ) {}

  of<
    Name extends string,
    Row extends WithId,
    Found extends WithId & StoredTerms<Name>,
    Input extends object & WordsOf<Name>,
    Answer extends WithId & WordsOf<Name>,
  >(worded: Worded<Name, Row, Found, Input, Answer>): WordedResource<Name, Row, Found, Input, Answer> {
    return new WordedResource(this, worded);
  }
}
