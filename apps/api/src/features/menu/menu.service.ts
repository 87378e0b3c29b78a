import { Injectable } from '@nestjs/common';
import { uuidv7 } from 'uuidv7';
import type { Change } from '../../common/change.js';
import type { Creation } from '../../common/creation.js';
import { page } from '../../common/page.dto.js';
import { found, Resources, type Changeable, type Removable } from '../../common/resources.js';
import { without } from '../../common/without.js';
import { ClanTransactions, type ClanDatabase } from '../../database/clan-transaction.js';
import type { Credential } from '../access/credential.js';
import { namesOf, TermWordsService, type TermFields } from '../terms/term-words.service.js';
import { MenuCallInput, type MenuCallPage, type MenuCallResponse, type MenuQuery } from './menu.dto.js';
import { MenuRepository, type MenuCallRow } from './menu.repository.js';

type TermName = 'personnel' | 'formation' | 'concept' | 'front' | 'coverage' | 'pressure';

/** The calls that the clan owns, in its own names. */
@Injectable()
export class MenuService {
  constructor(
    private readonly transactions: ClanTransactions,
    private readonly resources: Resources,
    private readonly repository: MenuRepository,
    private readonly words: TermWordsService,
  ) {}

  list(credential: Credential, { after, limit, side, rehearsed }: MenuQuery): Promise<MenuCallPage> {
    const filter = { after: after ?? null, side: side ?? null, rehearsed: rehearsed ?? null };
    return this.transactions.run(credential, 'read', async (db) => {
      const { items, next } = page(await this.repository.list(db, filter, limit + 1), limit, (call) => call.id);
      return { items: await this.inWords(db, items), next };
    });
  }

  read(credential: Credential, id: string): Promise<MenuCallResponse> {
    return this.transactions.run(credential, 'read', async (db) => found(await this.find(db, id), 'menu call'));
  }

  create(credential: Credential, creation: Creation, input: MenuCallInput): Promise<MenuCallResponse> {
    return this.resources.create(credential, creation, async (db) => {
      const id = uuidv7();
      const ids = await this.words.ids(db, termFields(input.side), input);
      await this.repository.insert(db, rowOf(id, input, ids));
      return found(await this.find(db, id), 'menu call');
    });
  }

  change(credential: Credential, id: string, change: Change): Promise<MenuCallResponse> {
    return this.resources.change(credential, change, this.kept(id));
  }

  remove(credential: Credential, id: string, ifMatch: string | null): Promise<void> {
    return this.resources.remove(credential, ifMatch, this.kept(id));
  }

  private kept(id: string): Changeable<MenuCallResponse, MenuCallInput> & Removable<MenuCallResponse> {
    return {
      kind: 'menu call',
      id,
      input: MenuCallInput,
      lock: async (db) => this.one(db, await this.repository.lock(db, id)),
      inputOf: (row) => without(row, 'id'),
      write: async (db, input, before) => {
        const stored = found(await this.repository.find(db, id), 'menu call');
        const kept = input.side === before.side ? { words: before, ids: stored } : null;
        const ids = await this.words.ids(db, termFields(input.side), input, kept);
        await this.repository.update(db, rowOf(id, input, ids));
      },
      read: (db) => this.find(db, id),
      remove: (db) => this.repository.remove(db, id),
    };
  }

  private async find(db: ClanDatabase, id: string): Promise<MenuCallResponse | null> {
    return this.one(db, await this.repository.find(db, id));
  }

  private async one(db: ClanDatabase, row: MenuCallRow | null): Promise<MenuCallResponse | null> {
    return row === null ? null : ((await this.inWords(db, [row]))[0] ?? null);
  }

  private async inWords(db: ClanDatabase, rows: readonly MenuCallRow[]): Promise<MenuCallResponse[]> {
    const words = await this.words.words(db, namesOf(termFields('offense')), rows);
    return rows.map(({ id, side, name, rehearsed }, place) => {
      const { personnel, formation, concept, front, coverage, pressure } = words[place] ?? NO_WORDS;
      return { id, side, name, personnel, formation, concept, front, coverage, pressure, rehearsed };
    });
  }
}

const NO_WORDS: Readonly<Record<TermName, null>> = {
  personnel: null,
  formation: null,
  concept: null,
  front: null,
  coverage: null,
  pressure: null,
};

function termFields(side: 'offense' | 'defense'): TermFields<TermName> {
  return {
    personnel: side === 'offense' ? 'offensivePersonnel' : 'defensivePersonnel',
    formation: 'formation',
    concept: 'concept',
    front: 'front',
    coverage: 'coverage',
    pressure: 'pressure',
  };
}

function rowOf(id: string, input: MenuCallInput, ids: Readonly<Record<TermName, number | null>>): MenuCallRow {
  return { id, side: input.side, name: input.name, ...ids, rehearsed: input.rehearsed ?? false };
}
