import { Injectable } from '@nestjs/common';
import type { QueryResultRow } from 'pg';
import { instant, MICROSECOND } from '../../common/instant-column.js';
import type { ClanDatabase } from '../../database/clan-transaction.js';
import type { FeedSource } from '../feed/feed.service.js';
import type { WebhookResponse } from './webhooks.dto.js';

export interface WebhookRow {
  readonly id: string;
  readonly url: string;
  readonly source: FeedSource;
}

/** The secret is not among what the service may read. When it was made tells one from the next, so it is told exactly. */
const WEBHOOK = `
  select id, url, event_id as "eventId", ended_at is null as enabled, ended_because as "endedBecause",
         ${instant('ended_at')} as "endedAt", ${instant('secret_since', MICROSECOND)} as "secretSince",
         ${instant('created_at')} as "createdAt"
    from webhook
   where clan_id = $1`;

@Injectable()
export class WebhooksRepository {
  list(db: ClanDatabase, after: string | null, limit: number): Promise<WebhookResponse[]> {
    return db.query<WebhookResponse & QueryResultRow>(
      `${WEBHOOK} and ($2::uuid is null or id > $2) order by id limit $3`,
      [db.clanId, after, limit],
    );
  }

  async find(db: ClanDatabase, id: string): Promise<WebhookResponse | null> {
    const rows = await db.query<WebhookResponse & QueryResultRow>(`${WEBHOOK} and id = $2`, [db.clanId, id]);
    return rows[0] ?? null;
  }

  async lock(db: ClanDatabase, id: string): Promise<WebhookResponse | null> {
    const rows = await db.query<WebhookResponse & QueryResultRow>(`${WEBHOOK} and id = $2 for no key update`, [
      db.clanId,
      id,
    ]);
    return rows[0] ?? null;
  }

  async count(db: ClanDatabase): Promise<number> {
    const [row] = await db.query<{ count: number }>(`select count(*)::int as count from webhook where clan_id = $1`, [
      db.clanId,
    ]);
    return row?.count ?? 0;
  }

  async insert(db: ClanDatabase, { id, url, source }: WebhookRow, secret: Buffer): Promise<void> {
    await db.query(
      `insert into webhook (clan_id, id, made_by, url, source_clan_id, event_id, secret)
       values ($1, $2, $3, $4, $5, $6, $7)`,
      [db.clanId, id, db.keyId, url, source.clanId, source.eventId, secret],
    );
  }

  /** Turned on again it stands in the name of whoever did that. */
  async turn(db: ClanDatabase, id: string, on: boolean): Promise<void> {
    await db.query(
      `update webhook
          set made_by = case when $3 and ended_at is not null then $4 else made_by end,
              ended_because = case when not $3 then coalesce(ended_because, 'turned off') end,
              ended_at = case when not $3 then coalesce(ended_at, now()) end
        where clan_id = $1 and id = $2`,
      [db.clanId, id, on, db.keyId],
    );
  }

  async update(db: ClanDatabase, { id, url, source }: WebhookRow): Promise<void> {
    await db.query(`update webhook set url = $3, source_clan_id = $4, event_id = $5 where clan_id = $1 and id = $2`, [
      ...[db.clanId, id, url, source.clanId, source.eventId],
    ]);
  }

  /** Whose feed it hears. */
  async sourceOf(db: ClanDatabase, id: string): Promise<FeedSource | null> {
    const rows = await db.query<FeedSource & QueryResultRow>(
      `select source_clan_id as "clanId", event_id as "eventId" from webhook where clan_id = $1 and id = $2`,
      [db.clanId, id],
    );
    return rows[0] ?? null;
  }

  async renewSecret(db: ClanDatabase, id: string, secret: Buffer): Promise<void> {
    await db.query('select app.renew_webhook_secret($1, $2)', [id, secret]);
  }

  async remove(db: ClanDatabase, id: string): Promise<void> {
    await db.query('delete from webhook where clan_id = $1 and id = $2', [db.clanId, id]);
  }
}
