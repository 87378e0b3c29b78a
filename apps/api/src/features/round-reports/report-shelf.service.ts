import { Injectable } from '@nestjs/common';
import { ANY_VERSION } from '../../common/change.js';
import { page } from '../../common/page.dto.js';
import { Resources } from '../../common/resources.js';
import { ClanTransactions } from '../../database/clan-transaction.js';
import type { Credential } from '../access/credential.js';
import type { ReportPage, ReportsQuery } from './report-shelf.dto.js';
import { ReportShelfRepository, type NamedSummary } from './report-shelf.repository.js';

/** The reports that were made: which there are, and throwing one away. None is ever changed. */
@Injectable()
export class ReportShelfService {
  constructor(
    private readonly transactions: ClanTransactions,
    private readonly resources: Resources,
    private readonly repository: ReportShelfRepository,
  ) {}

  list(credential: Credential, { after, limit, opponentId, eventId }: ReportsQuery): Promise<ReportPage> {
    const filter = { after: after ?? null, opponentId: opponentId ?? null, eventId: eventId ?? null };
    return this.transactions.run(credential, 'read', async (db) =>
      page(await this.repository.list(db, filter, limit + 1), limit, (report) => report.id),
    );
  }

  newest(credential: Credential, count: number): Promise<NamedSummary[]> {
    return this.transactions.run(credential, 'read', (db) => this.repository.newest(db, count));
  }

  /** What is frozen has no version to compare, so there is nothing to say by If-Match. */
  remove(credential: Credential, id: string): Promise<void> {
    return this.resources.remove(credential, ANY_VERSION, {
      kind: 'round report',
      id,
      lock: (db) => this.repository.find(db, id),
      remove: (db) => this.repository.remove(db, id),
    });
  }
}
