import { Injectable } from '@nestjs/common';
import { uuidv7 } from 'uuidv7';
import { AuditRepository } from '../../common/audit.repository.js';
import type { Creation } from '../../common/creation.js';
import { page, type IdPageQuery } from '../../common/page.dto.js';
import { found, Resources } from '../../common/resources.js';
import { ClanTransactions, type ClanDatabase } from '../../database/clan-transaction.js';
import { newSecret } from '../../database/new-secret.js';
import type { Credential } from '../access/credential.js';
import { ReportShelfRepository } from './report-shelf.repository.js';
import {
  USUAL_DAYS,
  type NewShareLink,
  type ShareLinkInput,
  type ShareLinkPage,
  type ShareLinkResponse,
} from './share-links.dto.js';
import { ShareLinksRepository } from './share-links.repository.js';

/** Links that open one report, read-only, to whoever has them: made on purpose, for some days, and revoked at once. */
@Injectable()
export class ShareLinksService {
  constructor(
    private readonly transactions: ClanTransactions,
    private readonly resources: Resources,
    private readonly repository: ShareLinksRepository,
    private readonly shelf: ReportShelfRepository,
    private readonly audit: AuditRepository,
  ) {}

  list(credential: Credential, reportId: string, { after, limit }: IdPageQuery): Promise<ShareLinkPage> {
    return this.transactions.run(credential, 'read', async (db) => {
      await this.requireReport(db, reportId);
      return page(await this.repository.list(db, reportId, after ?? null, limit + 1), limit, (link) => link.id);
    });
  }

  read(credential: Credential, reportId: string, id: string): Promise<ShareLinkResponse> {
    return this.transactions.run(credential, 'read', (db) => this.require(db, reportId, id));
  }

  /** @param origin - where people reach the service */
  async create(
    credential: Credential,
    creation: Creation,
    reportId: string,
    { days }: ShareLinkInput,
    origin: string,
  ): Promise<NewShareLink> {
    // The answer that is kept for a request that comes again has no secret in it.
    let link: string | null = null;
    const made = await this.resources.create(credential, creation, async (db) => {
      await this.requireReport(db, reportId);
      const [id, token] = [uuidv7(), newSecret('link')];
      await this.repository.insert(db, { id, reportId, token, days: days ?? USUAL_DAYS });
      await this.audit.did(db, 'round report.linked', 'round report', reportId, { linkId: id });
      link = `${origin}/v1/linked-reports/${token.text}`;
      return this.require(db, reportId, id);
    });
    return { ...made, link };
  }

  revoke(credential: Credential, reportId: string, id: string, ifMatch: string): Promise<void> {
    return this.resources.remove(credential, ifMatch, {
      kind: 'share link',
      id,
      lock: (db) => this.repository.find(db, reportId, id),
      remove: (db) => this.repository.revoke(db, id),
    });
  }

  private async require(db: ClanDatabase, reportId: string, id: string): Promise<ShareLinkResponse> {
    return found(await this.repository.find(db, reportId, id), 'share link');
  }

  private async requireReport(db: ClanDatabase, reportId: string): Promise<void> {
    found(await this.shelf.find(db, reportId), 'round report');
  }
}
