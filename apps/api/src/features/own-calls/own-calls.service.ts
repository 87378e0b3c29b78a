import { Injectable } from '@nestjs/common';
import { uuidv7 } from 'uuidv7';
import type { Change } from '../../common/change.js';
import type { Creation } from '../../common/creation.js';
import { page } from '../../common/page.dto.js';
import { found, Resources, type Changeable, type Removable } from '../../common/resources.js';
import { without } from '../../common/without.js';
import { ClanTransactions, type ClanDatabase } from '../../database/clan-transaction.js';
import type { Credential } from '../access/credential.js';
import { namesOf, TermWordsService } from '../terms/term-words.service.js';
import { OwnCallInput, type OwnCallPage, type OwnCallResponse, type OwnCallsQuery } from './own-calls.dto.js';
import { OwnCallsRepository, type OwnCallRow } from './own-calls.repository.js';

const TERM_FIELDS = {
  callFamily: 'callFamily',
  concept: 'concept',
  formation: 'formation',
  front: 'front',
  coverage: 'coverage',
  pressure: 'pressure',
} as const;
type TermName = keyof typeof TERM_FIELDS;

/** What the clan meant to call, apart from what was seen. */
@Injectable()
export class OwnCallsService {
  constructor(
    private readonly transactions: ClanTransactions,
    private readonly resources: Resources,
    private readonly repository: OwnCallsRepository,
    private readonly words: TermWordsService,
  ) {}

  list(credential: Credential, { after, limit, gameId, side }: OwnCallsQuery): Promise<OwnCallPage> {
    const filter = { after: after ?? null, gameId: gameId ?? null, side: side ?? null };
    return this.transactions.run(credential, 'read', async (db) => {
      const { items, next } = page(await this.repository.list(db, filter, limit + 1), limit, (call) => call.id);
      return { items: await this.inWords(db, items), next };
    });
  }

  read(credential: Credential, id: string): Promise<OwnCallResponse> {
    return this.transactions.run(credential, 'read', async (db) => found(await this.find(db, id), 'own call'));
  }

  create(credential: Credential, creation: Creation, input: OwnCallInput): Promise<OwnCallResponse> {
    return this.resources.create(credential, creation, async (db) => {
      const id = uuidv7();
      await this.repository.insert(db, rowOf(id, input, await this.words.ids(db, TERM_FIELDS, input)));
      return found(await this.find(db, id), 'own call');
    });
  }

  change(credential: Credential, id: string, change: Change): Promise<OwnCallResponse> {
    return this.resources.change(credential, change, this.kept(id));
  }

  remove(credential: Credential, id: string, ifMatch: string | null): Promise<void> {
    return this.resources.remove(credential, ifMatch, this.kept(id));
  }

  private kept(id: string): Changeable<OwnCallResponse, OwnCallInput> & Removable<OwnCallResponse> {
    return {
      kind: 'own call',
      id,
      input: OwnCallInput,
      lock: async (db) => this.one(db, await this.repository.lock(db, id)),
      inputOf: (row) => without(row, 'id'),
      write: async (db, input, before) => {
        const stored = found(await this.repository.find(db, id), 'own call');
        const ids = await this.words.ids(db, TERM_FIELDS, input, { words: before, ids: stored });
        await this.repository.update(db, rowOf(id, input, ids));
      },
      read: (db) => this.find(db, id),
      remove: (db) => this.repository.remove(db, id),
    };
  }

  private async find(db: ClanDatabase, id: string): Promise<OwnCallResponse | null> {
    return this.one(db, await this.repository.find(db, id));
  }

  private async one(db: ClanDatabase, row: OwnCallRow | null): Promise<OwnCallResponse | null> {
    return row === null ? null : ((await this.inWords(db, [row]))[0] ?? null);
  }

  private async inWords(db: ClanDatabase, rows: readonly OwnCallRow[]): Promise<OwnCallResponse[]> {
    const words = await this.words.words(db, namesOf<TermName>(TERM_FIELDS), rows);
    return rows.map(({ id, gameId, orderInGame, side, menuCallId, note }, place) => {
      const { callFamily, concept, formation, front, coverage, pressure } = words[place] ?? NO_WORDS;
      return {
        ...{ id, gameId, orderInGame, side, menuCallId },
        ...{ callFamily, concept, formation, front, coverage, pressure, note },
      };
    });
  }
}

const NO_WORDS: Readonly<Record<TermName, null>> = {
  callFamily: null,
  concept: null,
  formation: null,
  front: null,
  coverage: null,
  pressure: null,
};

function rowOf(id: string, input: OwnCallInput, ids: Readonly<Record<TermName, number | null>>): OwnCallRow {
  const { gameId, orderInGame, side } = input;
  return { id, gameId, orderInGame, side, menuCallId: input.menuCallId ?? null, ...ids, note: input.note ?? null };
}
