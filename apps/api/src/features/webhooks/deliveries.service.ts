import { Injectable } from '@nestjs/common';
import { uuidv7 } from 'uuidv7';
import { AuditRepository } from '../../common/audit.repository.js';
import { requireCurrent } from '../../common/change.js';
import { Clock } from '../../common/clock.js';
import type { Creation } from '../../common/creation.js';
import { etagOf } from '../../common/etag.js';
import { page, type IdPageQuery } from '../../common/page.dto.js';
import { found, Resources } from '../../common/resources.js';
import { ClanTransactions } from '../../database/clan-transaction.js';
import type { Credential } from '../access/credential.js';
import { TEST_KIND, type DeliveryPage, type DeliveryResponse } from './deliveries.dto.js';
import { DeliveriesRepository } from './deliveries.repository.js';
import { WebhooksRepository } from './webhooks.repository.js';

/** What a webhook was told, and how that went. */
@Injectable()
export class DeliveriesService {
  constructor(
    private readonly transactions: ClanTransactions,
    private readonly resources: Resources,
    private readonly audit: AuditRepository,
    private readonly webhooks: WebhooksRepository,
    private readonly repository: DeliveriesRepository,
    private readonly clock: Clock,
  ) {}

  list(credential: Credential, webhookId: string, { after, limit }: IdPageQuery): Promise<DeliveryPage> {
    return this.transactions.run(credential, 'read', async (db) => {
      found(await this.webhooks.find(db, webhookId), 'webhook');
      return page(await this.repository.list(db, webhookId, after ?? null, limit + 1), limit, ({ id }) => id);
    });
  }

  read(credential: Credential, webhookId: string, id: string): Promise<DeliveryResponse> {
    return this.transactions.run(credential, 'read', async (db) =>
      found(await this.repository.find(db, webhookId, id), 'delivery'),
    );
  }

  test(credential: Credential, creation: Creation, webhookId: string): Promise<DeliveryResponse> {
    return this.resources.create(credential, creation, async (db) => {
      found(await this.webhooks.find(db, webhookId), 'webhook', 'of yours ');
      const id = uuidv7();
      const body = { type: TEST_KIND, timestamp: this.clock.now().toISOString(), data: {} };
      await this.repository.insertTest(db, webhookId, id, TEST_KIND, JSON.stringify(body));
      return found(await this.repository.find(db, webhookId, id), 'delivery');
    });
  }

  /** Under the same id, by which its receiver knows whether it has it already. */
  repeat(credential: Credential, webhookId: string, id: string, ifMatch: string): Promise<DeliveryResponse> {
    return this.transactions.run(credential, 'write', async (db) => {
      requireCurrent(
        ifMatch,
        etagOf(found(await this.repository.find(db, webhookId, id, true), 'delivery', 'of yours ')),
      );
      await this.repository.repeat(db, id);
      await this.audit.did(db, 'webhook.repeated', 'webhook', webhookId, { deliveryId: id });
      return found(await this.repository.find(db, webhookId, id), 'delivery');
    });
  }
}
