import { Injectable } from '@nestjs/common';
import { page, type NamePageQuery } from '../../common/page.dto.js';
import { ApiError } from '../../common/problems.js';
import { ClanTransactions, type ClanDatabase } from '../../database/clan-transaction.js';
import type { Credential } from '../access/credential.js';
import type { PlayerPage } from './players.dto.js';
import { PlayersRepository } from './players.repository.js';

/** A player as one person, whatever records clans keep of them. */
export interface KnownPlayer {
  readonly identity: string;
  readonly handle: string;
  /** Ids of all visible records of this player; plays carry any of them. */
  readonly recordIds: readonly string[];
}

@Injectable()
export class PlayersService {
  constructor(
    private readonly transactions: ClanTransactions,
    private readonly repository: PlayersRepository,
  ) {}

  list(credential: Credential, { after, limit }: NamePageQuery): Promise<PlayerPage> {
    return this.transactions.run(credential, 'read', async (db) => {
      const rows = await this.repository.list(db, after ?? '', limit + 1);
      const { items, next } = page(rows, limit, (row) => row.normalisedHandle);
      return { items: items.map(({ id, handle }) => ({ id, handle })), next };
    });
  }

  /** @throws ApiError `resource.not_found`, also for a player whom only another clan may see */
  async require(db: ClanDatabase, playerId: string): Promise<KnownPlayer> {
    const records = await this.repository.sameAs(db, playerId);
    const [first] = records;
    if (first === undefined) throw new ApiError('resource.not_found', 'no player has this id');
    return { identity: first.identity, handle: first.handle, recordIds: records.map(({ id }) => id) };
  }

  handles(db: ClanDatabase, identities: readonly string[]): Promise<ReadonlyMap<string, string>> {
    return this.repository.handles(db, identities);
  }
}
