import { Injectable } from '@nestjs/common';
import { page } from '../../common/page.dto.js';
import { ClanTransactions } from '../../database/clan-transaction.js';
import type { Credential } from '../access/credential.js';
import { GamesQuery } from './games.query.js';
import type { GamePage } from './games.dto.js';
import { GamesRepository } from './games.repository.js';

@Injectable()
export class GamesService {
  constructor(
    private readonly transactions: ClanTransactions,
    private readonly repository: GamesRepository,
  ) {}

  list(credential: Credential, { after, limit, playerId, eventId }: GamesQuery): Promise<GamePage> {
    const wanted = { after: after ?? null, playerId: playerId ?? null, eventId: eventId ?? null };
    return this.transactions.run(credential, 'read', async (db) =>
      page(await this.repository.list(db, wanted, limit + 1), limit, (game) => game.id),
    );
  }
}
