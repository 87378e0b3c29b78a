import { Injectable } from '@nestjs/common';
import { AuditRepository } from '../../common/audit.repository.js';
import type { Change } from '../../common/change.js';
import { page, type IdPageQuery } from '../../common/page.dto.js';
import { ApiError } from '../../common/problems.js';
import { found, Resources, type Changeable, type Removable } from '../../common/resources.js';
import { ClanTransactions } from '../../database/clan-transaction.js';
import type { Credential } from '../access/credential.js';
import { MemberChange, type MemberChoice, type MemberPage, type MemberResponse } from './members.dto.js';
import { MembersRepository } from './members.repository.js';

/** Who is in the clan, and as what. */
@Injectable()
export class MembersService {
  constructor(
    private readonly transactions: ClanTransactions,
    private readonly resources: Resources,
    private readonly audit: AuditRepository,
    private readonly repository: MembersRepository,
  ) {}

  list(credential: Credential, { after, limit }: IdPageQuery): Promise<MemberPage> {
    return this.transactions.run(credential, 'read', async (db) =>
      page(await this.repository.list(db, after ?? null, limit + 1), limit, (member) => member.id),
    );
  }

  read(credential: Credential, id: string): Promise<MemberResponse> {
    return this.transactions.run(credential, 'read', async (db) => found(await this.repository.find(db, id), 'member'));
  }

  /** @throws ApiError `clan.owner_needed` when the clan would have no owner */
  change(credential: Credential, id: string, change: Change): Promise<MemberResponse> {
    return this.resources.change(credential, change, this.kept(id));
  }

  /** @throws ApiError `clan.owner_needed` when the clan would have no owner */
  remove(credential: Credential, id: string, ifMatch: string): Promise<void> {
    return this.resources.remove(credential, ifMatch, this.kept(id));
  }

  /** @throws ApiError `access.person_needed` when a key asks, which is not the owner that it was made by */
  handOver(credential: Credential, { memberId }: MemberChoice): Promise<MemberResponse> {
    return this.transactions.run(credential, 'write', async (db) => {
      if ((await this.repository.find(db, db.keyId)) === null) {
        throw new ApiError('access.person_needed', 'only an owner hands the clan over');
      }
      found(await this.repository.find(db, memberId), 'member');
      await this.repository.handOver(db, memberId);
      await this.audit.did(db, 'clan.handed_over', 'member', memberId);
      return found(await this.repository.find(db, memberId), 'member');
    });
  }

  private kept(id: string): Changeable<MemberResponse, MemberChange> & Removable<MemberResponse> {
    return {
      kind: 'member',
      id,
      input: MemberChange,
      lock: (db) => this.repository.find(db, id),
      inputOf: ({ role }) => ({ role }),
      write: async (db, { role }) => {
        await this.repository.setRole(db, id, role);
        await this.audit.did(db, 'member.role_changed', 'member', id, { role });
      },
      read: (db) => this.repository.find(db, id),
      remove: (db) => this.repository.remove(db, id),
    };
  }
}
