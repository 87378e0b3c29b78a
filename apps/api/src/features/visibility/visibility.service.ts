import { Injectable } from '@nestjs/common';
import { AuditRepository } from '../../common/audit.repository.js';
import { requireCurrent } from '../../common/change.js';
import { etagOf } from '../../common/etag.js';
import { ApiError } from '../../common/problems.js';
import { found } from '../../common/resources.js';
import { ClanTransactions, type ClanDatabase } from '../../database/clan-transaction.js';
import type { Credential } from '../access/credential.js';
import type { Choice, RecordVisibilityInput, RecordVisibility } from './visibility.dto.js';
import { VisibilityRepository, type Root, type VisibilityRow } from './visibility.repository.js';

const DONE: Readonly<Record<Choice, string>> = {
  private: 'withdrawn',
  shared: 'shared',
  public: 'published',
  event: 'shown with its event',
};

/** Who reads a clan's events, games and players: chosen on purpose, and recorded. */
@Injectable()
export class VisibilityService {
  constructor(
    private readonly transactions: ClanTransactions,
    private readonly repository: VisibilityRepository,
    private readonly audit: AuditRepository,
  ) {}

  read(credential: Credential, root: Root, id: string): Promise<RecordVisibility> {
    return this.transactions.run(credential, 'read', (db) => this.require(db, root, id, false));
  }

  /** @throws ApiError `access.right_missing` when the key may not manage; `request.precondition_failed` when it was changed */
  set(
    credential: Credential,
    root: Root,
    id: string,
    ifMatch: string,
    { visibility, clans }: RecordVisibilityInput,
  ): Promise<RecordVisibility> {
    const sharedWith = (clans ?? []).map(({ clanId, mayReshare }) => ({ clanId, mayReshare: mayReshare ?? false }));
    requireFit(root, visibility, sharedWith.length);
    return this.transactions.run(credential, 'write', async (db) => {
      const before = await this.require(db, root, id, true);
      requireCurrent(ifMatch, etagOf(before));
      if (visibility === 'event') await this.repository.followEvent(db, id);
      else await this.repository.set(db, root, id, { everyone: visibility === 'public', clans: sharedWith });
      await this.audit.did(db, `${root}.${DONE[visibility]}`, root, id, {
        before: before.visibility,
        clans: sharedWith.map(({ clanId }) => clanId),
      });
      return this.require(db, root, id, false);
    });
  }

  private async require(db: ClanDatabase, root: Root, id: string, lock: boolean): Promise<RecordVisibility> {
    const row = found(await this.repository.find(db, root, id, lock), root, 'of yours ');
    return {
      visibility: choiceOf(row),
      clans: [...row.chosenClans],
      readBy: row.isPublic ? 'public' : row.isShared ? 'shared' : 'private',
    };
  }
}

function choiceOf({ withEvent, chosenPublic, chosenClans }: VisibilityRow): Choice {
  if (withEvent) return 'event';
  return chosenPublic ? 'public' : chosenClans.length > 0 ? 'shared' : 'private';
}

function requireFit(root: Root, visibility: Choice, clans: number): void {
  const refuse = (field: string, found: string, expected: string): never => {
    throw new ApiError('request.invalid', 'who is to read it is not clear', { errors: [{ field, found, expected }] });
  };
  if (visibility === 'shared' && clans === 0) refuse('clans', '', 'at least one clan');
  if (visibility !== 'shared' && clans > 0) refuse('clans', String(clans), 'none, unless it is shared');
  if (visibility === 'event' && root !== 'game') refuse('visibility', visibility, 'private, shared or public');
}
