import { Injectable } from '@nestjs/common';
import type { QueryResultRow } from 'pg';
import { instant } from '../../common/instant-column.js';
import type { ClanDatabase } from '../../database/clan-transaction.js';
import { FEED_CHANNEL, DELIVERIES } from '../../database/wakes.js';
import type { DeliveryResponse } from './deliveries.dto.js';

const DELIVERY = `
  select id, kind, event_id as "eventId", state, attempts, ${instant('queued_at')} as "queuedAt",
         case when state = 'waiting' then ${instant('due_at')} end as "nextAttemptAt", ${instant('attempted_at')} as "attemptedAt",
         last_status as "lastStatus", last_problem as "lastProblem"
    from webhook_delivery
   where clan_id = $1 and webhook_id = $2`;

/** What was and is to be told, as the clan sees it. */
@Injectable()
export class DeliveriesRepository {
  list(db: ClanDatabase, webhookId: string, after: string | null, limit: number): Promise<DeliveryResponse[]> {
    return db.query<DeliveryResponse & QueryResultRow>(
      `${DELIVERY} and ($3::uuid is null or id < $3) order by id desc limit $4`,
      [db.clanId, webhookId, after, limit],
    );
  }

  async find(db: ClanDatabase, webhookId: string, id: string, lock = false): Promise<DeliveryResponse | null> {
    const rows = await db.query<DeliveryResponse & QueryResultRow>(
      `${DELIVERY} and id = $3 ${lock ? 'for no key update' : ''}`,
      [db.clanId, webhookId, id],
    );
    return rows[0] ?? null;
  }

  async insertTest(db: ClanDatabase, webhookId: string, id: string, kind: string, body: string): Promise<void> {
    await db.query(`insert into webhook_delivery (clan_id, id, webhook_id, kind, body) values ($1, $2, $3, $4, $5)`, [
      ...[db.clanId, id, webhookId, kind, body],
    ]);
    await this.tell(db);
  }

  async repeat(db: ClanDatabase, id: string): Promise<void> {
    await db.query(
      `update webhook_delivery set state = 'waiting', attempts = 0, due_at = now() where clan_id = $1 and id = $2`,
      [db.clanId, id],
    );
    await this.tell(db);
  }

  /** Wakes the workers when the transaction is committed. */
  async tell(db: ClanDatabase): Promise<void> {
    await db.query('select pg_notify($1, $2)', [FEED_CHANNEL, DELIVERIES]);
  }
}
