import { Injectable } from '@nestjs/common';
import { uuidv7 } from 'uuidv7';
import type { Change } from '../../common/change.js';
import type { Creation } from '../../common/creation.js';
import { page, type IdPageQuery } from '../../common/page.dto.js';
import { found, Resources, type Changeable, type Removable } from '../../common/resources.js';
import { without } from '../../common/without.js';
import { ClanTransactions } from '../../database/clan-transaction.js';
import type { Credential } from '../access/credential.js';
import { EventsService } from './events.service.js';
import { MatchInput, type MatchPage, type MatchResponse } from './matches.dto.js';
import { MatchesRepository } from './matches.repository.js';

@Injectable()
export class MatchesService {
  constructor(
    private readonly transactions: ClanTransactions,
    private readonly resources: Resources,
    private readonly repository: MatchesRepository,
    private readonly events: EventsService,
  ) {}

  list(credential: Credential, eventId: string, { after, limit }: IdPageQuery): Promise<MatchPage> {
    return this.transactions.run(credential, 'read', async (db) => {
      await this.events.require(db, eventId);
      return page(await this.repository.list(db, eventId, after ?? null, limit + 1), limit, (match) => match.id);
    });
  }

  read(credential: Credential, eventId: string, matchId: string): Promise<MatchResponse> {
    return this.transactions.run(credential, 'glance', async (db) =>
      found(await this.repository.find(db, eventId, matchId), 'match'),
    );
  }

  create(credential: Credential, creation: Creation, eventId: string, input: MatchInput): Promise<MatchResponse> {
    return this.resources.create(credential, creation, async (db) => {
      await this.events.requireOwn(db, eventId);
      const id = uuidv7();
      await this.repository.insert(db, eventId, id, input);
      return found(await this.repository.find(db, eventId, id), 'match');
    });
  }

  change(credential: Credential, eventId: string, matchId: string, change: Change): Promise<MatchResponse> {
    return this.resources.change(credential, change, this.kept(eventId, matchId));
  }

  remove(credential: Credential, eventId: string, matchId: string, ifMatch: string | null): Promise<void> {
    return this.resources.remove(credential, ifMatch, this.kept(eventId, matchId));
  }

  private kept(eventId: string, id: string): Changeable<MatchResponse, MatchInput> & Removable<MatchResponse> {
    return {
      kind: 'match',
      id,
      input: MatchInput,
      lock: (db) => this.repository.lockOwn(db, eventId, id),
      inputOf: (row) => without(row, 'id', 'eventId'),
      write: (db, input) => this.repository.update(db, eventId, id, input),
      read: (db) => this.repository.find(db, eventId, id),
      remove: (db) => this.repository.remove(db, eventId, id),
    };
  }
}
