import { randomBytes } from 'node:crypto';
import { Inject, Injectable } from '@nestjs/common';
import { uuidv7 } from 'uuidv7';
import { AuditRepository } from '../../common/audit.repository.js';
import { requireCurrent, type Change } from '../../common/change.js';
import type { Creation } from '../../common/creation.js';
import { etagOf } from '../../common/etag.js';
import { page, type IdPageQuery } from '../../common/page.dto.js';
import { printed } from '../../common/printed.js';
import { ApiError } from '../../common/problems.js';
import { found, Resources, type Changeable, type Removable } from '../../common/resources.js';
import { SETTINGS, type Settings } from '../../config/settings.js';
import { ClanTransactions } from '../../database/clan-transaction.js';
import type { Credential } from '../access/credential.js';
import { FeedService } from '../feed/feed.service.js';
import { DeliveriesRepository } from './deliveries.repository.js';
import { refusedAddress } from './reachable-address.js';
import { WebhookInput, type NewWebhook, type WebhookPage, type WebhookResponse } from './webhooks.dto.js';
import { WebhooksRepository } from './webhooks.repository.js';

/** Each is sent to in turn, so a clan with many would make the others wait. */
const MOST_WEBHOOKS = 10;
/** Standard Webhooks asks for 24 to 64. */
const SECRET_BYTES = 32;

/** Addresses that are told by signed messages what the feed tells. */
@Injectable()
export class WebhooksService {
  constructor(
    private readonly transactions: ClanTransactions,
    private readonly resources: Resources,
    private readonly audit: AuditRepository,
    private readonly repository: WebhooksRepository,
    private readonly deliveries: DeliveriesRepository,
    private readonly feed: FeedService,
    @Inject(SETTINGS) private readonly settings: Settings,
  ) {}

  list(credential: Credential, { after, limit }: IdPageQuery): Promise<WebhookPage> {
    return this.transactions.run(credential, 'read', async (db) =>
      page(await this.repository.list(db, after ?? null, limit + 1), limit, ({ id }) => id),
    );
  }

  read(credential: Credential, id: string): Promise<WebhookResponse> {
    return this.transactions.run(credential, 'read', async (db) =>
      found(await this.repository.find(db, id), 'webhook'),
    );
  }

  /**
   * @throws ApiError `request.invalid` for an address that is never sent to
   * @throws ApiError `clan.quota_reached`
   */
  async create(credential: Credential, creation: Creation, input: WebhookInput): Promise<NewWebhook> {
    // The answer that is kept for a request that comes again has no secret in it.
    let secret: string | null = null;
    const made = await this.resources.create(credential, creation, async (db) => {
      if ((await this.repository.count(db)) >= MOST_WEBHOOKS) {
        throw new ApiError('clan.quota_reached', `a clan keeps at most ${MOST_WEBHOOKS} webhooks`);
      }
      const [id, bytes] = [uuidv7(), randomBytes(SECRET_BYTES)];
      const source = await this.feed.sourceOf(db, input.eventId);
      await this.repository.insert(db, { id, url: this.reachable(input.url), source }, bytes);
      await this.repository.turn(db, id, input.enabled ?? true);
      await this.audit.did(db, 'webhook.made', 'webhook', id);
      secret = printedSecret(bytes);
      return found(await this.repository.find(db, id), 'webhook');
    });
    return { ...made, secret };
  }

  change(credential: Credential, id: string, change: Change): Promise<WebhookResponse> {
    return this.resources.change(credential, change, this.kept(id));
  }

  /** What waited for it goes with it. */
  remove(credential: Credential, id: string, ifMatch: string): Promise<void> {
    return this.resources.remove(credential, ifMatch, this.kept(id));
  }

  /** Signs with another secret from now on, and for a day with the one before too. */
  renewSecret(credential: Credential, id: string, ifMatch: string): Promise<NewWebhook> {
    return this.transactions.run(credential, 'write', async (db) => {
      requireCurrent(ifMatch, etagOf(found(await this.repository.lock(db, id), 'webhook', 'of yours ')));
      const bytes = randomBytes(SECRET_BYTES);
      await this.repository.renewSecret(db, id, bytes);
      await this.audit.did(db, 'webhook.secret_renewed', 'webhook', id);
      return { ...found(await this.repository.find(db, id), 'webhook'), secret: printedSecret(bytes) };
    });
  }

  private kept(id: string): Changeable<WebhookResponse, WebhookInput> & Removable<WebhookResponse> {
    return {
      kind: 'webhook',
      id,
      input: WebhookInput,
      lock: (db) => this.repository.lock(db, id),
      inputOf: ({ url, eventId, enabled }) => ({ url, eventId, enabled }),
      write: async (db, { url, eventId, enabled }, before) => {
        const kept = await this.repository.sourceOf(db, id);
        // An event that cannot be seen any more is no reason against turning the webhook off.
        const same = kept !== null && eventId === before.eventId;
        const source = same ? kept : await this.feed.sourceOf(db, eventId);
        await this.repository.update(db, { id, url: this.reachable(url), source });
        await this.repository.turn(db, id, enabled ?? true);
        // What waited while it was off is due.
        await this.deliveries.tell(db);
      },
      read: (db) => this.repository.find(db, id),
      remove: (db) => this.repository.remove(db, id),
    };
  }

  /** What a name leads to is looked at when it is sent to; what can be known before is said at once. */
  private reachable(text: string): string {
    const problem = refusedAddress(text, this.settings.webhookPrivateAddresses);
    if (problem === null) return text;
    throw new ApiError('request.invalid', 'that address is not sent to', {
      errors: [{ field: 'url', found: printed(text), expected: problem }],
    });
  }
}

/** Standard Webhooks 1.0.0, "Secret serialization". */
function printedSecret(bytes: Buffer): string {
  return `whsec_${bytes.toString('base64')}`;
}
