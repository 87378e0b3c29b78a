import { Injectable } from '@nestjs/common';
import { uuidv7 } from 'uuidv7';
import type { Change } from '../../common/change.js';
import type { Creation } from '../../common/creation.js';
import { page, type IdPageQuery } from '../../common/page.dto.js';
import { found, Resources, type Changeable, type Removable } from '../../common/resources.js';
import { without } from '../../common/without.js';
import { ClanTransactions } from '../../database/clan-transaction.js';
import type { Credential } from '../access/credential.js';
import {
  MatchUpOverrideInput,
  type MatchUpOverridePage,
  type MatchUpOverrideResponse,
} from './match-up-overrides.dto.js';
import { MatchUpOverridesRepository } from './match-up-overrides.repository.js';

@Injectable()
export class MatchUpOverridesService {
  constructor(
    private readonly transactions: ClanTransactions,
    private readonly resources: Resources,
    private readonly repository: MatchUpOverridesRepository,
  ) {}

  list(credential: Credential, { after, limit }: IdPageQuery): Promise<MatchUpOverridePage> {
    return this.transactions.run(credential, 'read', async (db) =>
      page(await this.repository.list(db, after ?? null, limit + 1), limit, ({ id }) => id),
    );
  }

  read(credential: Credential, id: string): Promise<MatchUpOverrideResponse> {
    return this.transactions.run(credential, 'read', async (db) =>
      found(await this.repository.find(db, id), 'match-up override'),
    );
  }

  create(credential: Credential, creation: Creation, input: MatchUpOverrideInput): Promise<MatchUpOverrideResponse> {
    return this.resources.create(credential, creation, async (db) => {
      const id = uuidv7();
      await this.repository.insert(db, id, input);
      return found(await this.repository.find(db, id), 'match-up override');
    });
  }

  change(credential: Credential, id: string, change: Change): Promise<MatchUpOverrideResponse> {
    return this.resources.change(credential, change, this.kept(id));
  }

  remove(credential: Credential, id: string, ifMatch: string): Promise<void> {
    return this.resources.remove(credential, ifMatch, this.kept(id));
  }

  private kept(
    id: string,
  ): Changeable<MatchUpOverrideResponse, MatchUpOverrideInput> & Removable<MatchUpOverrideResponse> {
    return {
      kind: 'match-up override',
      id,
      input: MatchUpOverrideInput,
      lock: (db) => this.repository.lockOwn(db, id),
      inputOf: (row) => without(row, 'id'),
      write: (db, input) => this.repository.update(db, id, input),
      read: (db) => this.repository.find(db, id),
      remove: (db) => this.repository.remove(db, id),
    };
  }
}
