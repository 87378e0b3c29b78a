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
import { ChartChangesService } from './chart-changes.service.js';
import {
  ChartChange,
  type ChartPage,
  type ChartResponse,
  type ChartsQuery,
  type NewChart,
} from './chart-records.dto.js';
import { ChartPacksRepository } from './chart-packs.repository.js';
import { ChartRecordsRepository } from './chart-records.repository.js';

/** Charts as records: whose they are, and what of the film they cover. */
@Injectable()
export class ChartRecordsService {
  constructor(
    private readonly transactions: ClanTransactions,
    private readonly resources: Resources,
    private readonly repository: ChartRecordsRepository,
    private readonly packs: ChartPacksRepository,
    private readonly changes: ChartChangesService,
  ) {}

  list(credential: Credential, { after, limit, gameId, own }: ChartsQuery): Promise<ChartPage> {
    const filter = { after: after ?? null, gameId: gameId ?? null, own: own ?? null };
    return this.transactions.run(credential, 'read', async (db) =>
      page(await this.repository.list(db, filter, limit + 1), limit, (chart) => chart.id),
    );
  }

  read(credential: Credential, chartId: string): Promise<ChartResponse> {
    return this.transactions.run(credential, 'read', (db) => this.require(db, chartId));
  }

  /** An empty chart, to be filled play by play. */
  create(credential: Credential, creation: Creation, input: NewChart): Promise<ChartResponse> {
    return this.resources.create(credential, creation, async (db) => {
      const chartId = uuidv7();
      if (!(await this.repository.insert(db, chartId, input))) {
        throw new ApiError('resource.reference_unknown', 'no game of yours has this id', {
          errors: [{ field: 'gameId', found: input.gameId, expected: 'the id of one of yours' }],
        });
      }
      await this.packs.rebuild(db, { clanId: db.clanId, chartId, gameId: input.gameId });
      await this.changes.settle(db, input.gameId);
      return this.require(db, chartId);
    });
  }

  change(credential: Credential, chartId: string, change: Change): Promise<ChartResponse> {
    return this.resources.change(credential, change, this.kept(chartId));
  }

  remove(credential: Credential, chartId: string, ifMatch: string): Promise<void> {
    return this.resources.remove(credential, ifMatch, this.kept(chartId));
  }

  /** @throws ApiError `resource.not_found`, also for a chart that only another clan may see */
  async require(db: ClanDatabase, chartId: string): Promise<ChartResponse> {
    return found(await this.repository.find(db, chartId), 'chart');
  }

  private kept(id: string): Changeable<ChartResponse, ChartChange> & Removable<ChartResponse> {
    return {
      kind: 'chart',
      id,
      input: ChartChange,
      lock: async (db) => {
        const chart = await this.repository.lockOwn(db, id);
        if (chart !== null) requireMade(chart);
        return chart;
      },
      inputOf: (row) => without(row, 'id', 'gameId', 'kind', 'plays', 'revision', 'own'),
      write: async (db, input, before) => {
        await this.repository.update(db, id, input);
        await this.changes.changed(db, before.gameId, [id]);
      },
      read: (db) => this.repository.find(db, id),
      remove: async (db, row) => {
        await this.repository.remove(db, id);
        await this.changes.settle(db, row.gameId);
      },
    };
  }
}

/** @throws ApiError `chart.reconciled`: what follows from other charts is changed by changing those */
export function requireMade({ kind }: Pick<ChartResponse, 'kind'>): void {
  if (kind === 'reconciled') {
    throw new ApiError('chart.reconciled', 'this chart is made of the other charts of its game: change those');
  }
}
