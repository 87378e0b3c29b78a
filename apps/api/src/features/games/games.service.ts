import { Injectable } from '@nestjs/common';
import { uuidv7 } from 'uuidv7';
import type { Change } from '../../common/change.js';
import type { Creation } from '../../common/creation.js';
import { page } from '../../common/page.dto.js';
import { QuotaRepository } from '../../common/quota.repository.js';
import { found, Resources, type Changeable, type Removable } from '../../common/resources.js';
import { without } from '../../common/without.js';
import { ClanTransactions, type ClanDatabase } from '../../database/clan-transaction.js';
import type { Credential } from '../access/credential.js';
import { ChartChangesService } from '../charts/chart-changes.service.js';
import { GameInput, type GamePage, type GameResponse } from './games.dto.js';
import type { GamesQuery } from './games.query.js';
import { GamesRepository } from './games.repository.js';

@Injectable()
export class GamesService {
  constructor(
    private readonly transactions: ClanTransactions,
    private readonly resources: Resources,
    private readonly repository: GamesRepository,
    private readonly charts: ChartChangesService,
    private readonly quota: QuotaRepository,
  ) {}

  list(credential: Credential, query: GamesQuery): Promise<GamePage> {
    const { after, limit, playerId, eventId, importance, own } = query;
    const filter = {
      after: after ?? null,
      playerId: playerId ?? null,
      eventId: eventId ?? null,
      importance: importance ?? null,
      own: own ?? null,
    };
    return this.transactions.run(credential, 'read', async (db) =>
      page(await this.repository.list(db, filter, limit + 1), limit, (game) => game.id),
    );
  }

  read(credential: Credential, gameId: string): Promise<GameResponse> {
    return this.transactions.run(credential, 'read', (db) => this.require(db, gameId));
  }

  create(credential: Credential, creation: Creation, input: GameInput): Promise<GameResponse> {
    return this.resources.create(credential, creation, async (db) => {
      await this.quota.requireRoomForGame(db);
      const id = uuidv7();
      await this.repository.insert(db, id, uuidv7(), input);
      return this.require(db, id);
    });
  }

  change(credential: Credential, gameId: string, change: Change): Promise<GameResponse> {
    return this.resources.change(credential, change, this.kept(gameId));
  }

  remove(credential: Credential, gameId: string, ifMatch: string): Promise<void> {
    return this.resources.remove(credential, ifMatch, this.kept(gameId));
  }

  /** @throws ApiError `resource.not_found`, also for a game that only another clan may see */
  async require(db: ClanDatabase, gameId: string): Promise<GameResponse> {
    return found(await this.repository.find(db, gameId), 'game');
  }

  private kept(id: string): Changeable<GameResponse, GameInput> & Removable<GameResponse> {
    return {
      kind: 'game',
      id,
      input: GameInput,
      lock: (db) => this.repository.lockOwn(db, id),
      inputOf: (row) => without(row, 'id', 'home', 'away', 'contestId', 'charts', 'own'),
      write: async (db, input, before) => {
        const scopeBefore = await this.repository.scopeOf(db, id);
        await this.repository.update(db, id, before.contestId, input);
        if (input.homePlayerId !== before.homePlayerId) await this.charts.gameChanged(db, id);
        await this.repository.raiseScopes(db, [scopeBefore, await this.repository.scopeOf(db, id)]);
      },
      read: (db) => this.repository.find(db, id),
      remove: async (db, row) => {
        const scope = await this.repository.scopeOf(db, id);
        await this.repository.remove(db, row);
        await this.repository.raiseScopes(db, [scope]);
      },
    };
  }
}
