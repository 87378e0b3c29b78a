import { Injectable } from '@nestjs/common';
import { uuidv7 } from 'uuidv7';
import type { Change } from '../../common/change.js';
import type { Creation } from '../../common/creation.js';
import { page } from '../../common/page.dto.js';
import { ApiError } from '../../common/problems.js';
import { found, Resources, type Changeable, type Removable } from '../../common/resources.js';
import { without } from '../../common/without.js';
import { ClanTransactions, type ClanDatabase } from '../../database/clan-transaction.js';
import type { Credential } from '../access/credential.js';
import { namesOf, TermWordsService } from '../terms/term-words.service.js';
import {
  CoachingPointInput,
  type CoachingPointPage,
  type CoachingPointResponse,
  type CoachingPointsQuery,
  type CoachingPointVersions,
} from './coaching-points.dto.js';
import { CoachingPointsRepository, type CoachingPointRow, type WrittenPoint } from './coaching-points.repository.js';

const TERM_FIELDS = {
  callFamily: 'callFamily',
  concept: 'concept',
  formation: 'formation',
  front: 'front',
  coverage: 'coverage',
  pressure: 'pressure',
} as const;
type TermName = keyof typeof TERM_FIELDS;

/** Short signed notes on a call, an answer, an opponent or a play; what they said before is kept. */
@Injectable()
export class CoachingPointsService {
  constructor(
    private readonly transactions: ClanTransactions,
    private readonly resources: Resources,
    private readonly repository: CoachingPointsRepository,
    private readonly words: TermWordsService,
  ) {}

  list(credential: Credential, query: CoachingPointsQuery): Promise<CoachingPointPage> {
    const { after, limit, about, playerId, chartId, menuCallId } = query;
    const filter = {
      after: after ?? null,
      about: about ?? null,
      playerId: playerId ?? null,
      chartId: chartId ?? null,
      menuCallId: menuCallId ?? null,
    };
    return this.transactions.run(credential, 'read', async (db) => {
      const { items, next } = page(await this.repository.list(db, filter, limit + 1), limit, (point) => point.id);
      return { items: await this.inWords(db, items), next };
    });
  }

  read(credential: Credential, id: string): Promise<CoachingPointResponse> {
    return this.transactions.run(credential, 'read', async (db) => found(await this.find(db, id), 'coaching point'));
  }

  versions(credential: Credential, id: string): Promise<CoachingPointVersions> {
    return this.transactions.run(credential, 'read', async (db) => {
      const { revision, text, writtenBy, writtenAt } = found(await this.repository.find(db, id), 'coaching point');
      return { items: [{ revision, text, writtenBy, writtenAt }, ...(await this.repository.versions(db, id))] };
    });
  }

  create(credential: Credential, creation: Creation, input: CoachingPointInput): Promise<CoachingPointResponse> {
    return this.resources.create(credential, creation, async (db) => {
      const id = uuidv7();
      await this.requirePlay(db, input);
      await this.repository.insert(db, rowOf(id, input, await this.words.ids(db, TERM_FIELDS, input)));
      return found(await this.find(db, id), 'coaching point');
    });
  }

  change(credential: Credential, id: string, change: Change): Promise<CoachingPointResponse> {
    return this.resources.change(credential, change, this.kept(id));
  }

  remove(credential: Credential, id: string, ifMatch: string | null): Promise<void> {
    return this.resources.remove(credential, ifMatch, this.kept(id));
  }

  private kept(id: string): Changeable<CoachingPointResponse, CoachingPointInput> & Removable<CoachingPointResponse> {
    return {
      kind: 'coaching point',
      id,
      input: CoachingPointInput,
      lock: async (db) => this.one(db, await this.repository.lock(db, id)),
      inputOf: (row) => without(row, 'id', 'revision', 'writtenBy', 'writtenAt'),
      write: async (db, input, before) => {
        const stored = found(await this.repository.find(db, id), 'coaching point');
        const moved = input.chartId !== before.chartId || input.playNumber !== before.playNumber;
        if (moved) await this.requirePlay(db, input);
        const ids = await this.words.ids(db, TERM_FIELDS, input, { words: before, ids: stored });
        await this.repository.update(db, rowOf(id, input, ids));
      },
      read: (db) => this.find(db, id),
      remove: (db) => this.repository.remove(db, id),
    };
  }

  /** A play has no foreign key here, since it may be another clan's. */
  private async requirePlay(db: ClanDatabase, { chartId, playNumber }: CoachingPointInput): Promise<void> {
    if (chartId == null || playNumber == null) return;
    if (await this.repository.seesPlay(db, chartId, playNumber)) return;
    throw new ApiError('resource.reference_unknown', 'there is no such play', {
      errors: [
        { field: 'playNumber', found: String(playNumber), expected: 'a play of that chart, which you can read' },
      ],
    });
  }

  private async find(db: ClanDatabase, id: string): Promise<CoachingPointResponse | null> {
    return this.one(db, await this.repository.find(db, id));
  }

  private async one(db: ClanDatabase, row: WrittenPoint | null): Promise<CoachingPointResponse | null> {
    return row === null ? null : ((await this.inWords(db, [row]))[0] ?? null);
  }

  private async inWords(db: ClanDatabase, rows: readonly WrittenPoint[]): Promise<CoachingPointResponse[]> {
    const words = await this.words.words(db, namesOf<TermName>(TERM_FIELDS), rows);
    return rows.map((row, place) => {
      const { callFamily, concept, formation, front, coverage, pressure } = words[place] ?? NO_WORDS;
      const { id, about, text, menuCallId, playerId, chartId, playNumber, revision, writtenBy, writtenAt } = row;
      return {
        ...{ id, about, text, menuCallId, callFamily, concept, formation, front, coverage, pressure },
        ...{ playerId, chartId, playNumber, revision, writtenBy, writtenAt },
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

function rowOf(
  id: string,
  input: CoachingPointInput,
  ids: Readonly<Record<TermName, number | null>>,
): CoachingPointRow {
  return {
    id,
    about: input.about,
    text: input.text,
    menuCallId: input.menuCallId ?? null,
    ...ids,
    playerId: input.playerId ?? null,
    chartId: input.chartId ?? null,
    playNumber: input.playNumber ?? null,
  };
}
