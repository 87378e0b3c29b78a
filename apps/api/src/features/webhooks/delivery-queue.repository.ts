import { Inject, Injectable } from '@nestjs/common';
import type { Pool, QueryResultRow } from 'pg';
import { SERVICE_POOL } from '../../database/clan-transaction.js';
import type { DeliveryState } from './deliveries.dto.js';
import type { Ending } from './webhooks.dto.js';

/** A message that is this worker's to send until its lease ends. */
export interface TakenDelivery {
  readonly clanId: string;
  readonly webhookId: string;
  readonly lease: string;
  readonly id: string;
  readonly url: string;
  readonly body: string;
  /** With the one that is about to be made. */
  readonly attempts: number;
  readonly seconds: string;
  readonly signature: string;
}

export interface Outcome {
  readonly state: DeliveryState;
  readonly status: number | null;
  readonly problem: string | null;
  readonly dueAt: Date | null;
  /** Why the webhook is told nothing any more. */
  readonly ends: Ending | null;
}

/** The queue of all clans, beside them: narrow functions of the schema decide what is due and may be told. */
@Injectable()
export class DeliveryQueueRepository {
  constructor(@Inject(SERVICE_POOL) private readonly pool: Pool) {}

  async take(now: Date, leaseSeconds: number, most: number): Promise<TakenDelivery[]> {
    const { rows } = await this.pool.query<TakenDelivery & QueryResultRow>(
      `select clan_id as "clanId", webhook_id as "webhookId", lease, id, url, body, attempts, seconds::text, signature
         from app.take_deliveries($1, $2, $3)`,
      [now, leaseSeconds, most],
    );
    return rows;
  }

  async settle(
    { clanId, webhookId, lease, id }: TakenDelivery,
    now: Date,
    { state, status, problem, dueAt, ends }: Outcome,
  ): Promise<void> {
    await this.pool.query('select app.settle_delivery($1, $2, $3, $4, $5, $6, $7, $8, $9, $10)', [
      ...[clanId, webhookId, lease, id, now, state, status, problem, dueAt, ends],
    ]);
  }

  /** Null when nothing waits. */
  async nextDue(): Promise<Date | null> {
    const { rows } = await this.pool.query<{ due: Date | null }>('select app.next_delivery() as due');
    return rows[0]?.due ?? null;
  }
}
