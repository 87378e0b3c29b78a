import { randomBytes } from 'node:crypto';
import { Injectable } from '@nestjs/common';
import { AuditRepository } from '../../common/audit.repository.js';
import { requireCurrent } from '../../common/change.js';
import { etagOf } from '../../common/etag.js';
import { found } from '../../common/resources.js';
import { ClanTransactions } from '../../database/clan-transaction.js';
import type { Credential } from '../access/credential.js';
import { PlayersService } from '../players/players.service.js';
import type { ErasureInput, ErasureResponse, PlayerExport } from './privacy.dto.js';
import { PrivacyRepository } from './privacy.repository.js';

/** What a player may ask of the clan that keeps records: to see them, and to be taken out of them. */
@Injectable()
export class PrivacyService {
  constructor(
    private readonly transactions: ClanTransactions,
    private readonly repository: PrivacyRepository,
    private readonly players: PlayersService,
    private readonly audit: AuditRepository,
  ) {}

  erase(credential: Credential, playerId: string, ifMatch: string, { plays }: ErasureInput): Promise<ErasureResponse> {
    return this.transactions.run(credential, 'write', async (db) => {
      requireCurrent(ifMatch, etagOf(await this.players.lockOwn(db, playerId)));
      // Random, since whatever is made from the name leads back to it.
      const pseudonym = `player ${randomBytes(4).toString('hex')}`;
      await this.repository.erase(db, playerId, pseudonym, plays === 'remove');
      await this.audit.did(db, 'player.erased', 'player', playerId, { plays });
      const left = await this.repository.everything(db, playerId);
      return { playerId, pseudonym: left === null ? null : pseudonym };
    });
  }

  export(credential: Credential, playerId: string): Promise<PlayerExport> {
    return this.transactions.run(credential, 'write', async (db) => {
      const everything = found(await this.repository.everything(db, playerId), 'player', 'of yours ');
      await this.audit.did(db, 'player.exported', 'player', playerId);
      return everything;
    });
  }
}
