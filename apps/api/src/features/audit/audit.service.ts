import { Injectable } from '@nestjs/common';
import { page } from '../../common/page.dto.js';
import { ClanTransactions } from '../../database/clan-transaction.js';
import type { Credential } from '../access/credential.js';
import { AuditReadingRepository } from './audit-reading.repository.js';
import type { AuditPage, AuditQuery } from './audit.dto.js';

/** Who changed, shared, exported or removed what and when. Written in the transaction of the deed, and read by owners. */
@Injectable()
export class AuditService {
  constructor(
    private readonly transactions: ClanTransactions,
    private readonly repository: AuditReadingRepository,
  ) {}

  list(credential: Credential, { after, limit, subjectId, action }: AuditQuery): Promise<AuditPage> {
    const filter = { after: after ?? null, subjectId: subjectId ?? null, action: action ?? null };
    return this.transactions.run(credential, 'read', async (db) =>
      page(await this.repository.list(db, filter, limit + 1), limit, (entry) => entry.id),
    );
  }
}
