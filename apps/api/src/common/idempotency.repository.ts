import { Injectable } from '@nestjs/common';
import { lastOf, type ClanDatabase } from '../database/clan-transaction.js';
import type { Creation } from './creation.js';
import { ApiError } from './problems.js';

/** A client that tries again does so within minutes; a day leaves room for one that was switched off. */
const KEPT_FOR = '24 hours';
const CREATED = 201;

/**
 * Remembers answers by the key that came with the request. The key is taken in the transaction of the work: a second
 * request with the same key waits for the first to end, and finds its answer, or nothing if the first failed.
 */
@Injectable()
export class IdempotencyRepository {
  /** @throws ApiError `request.key_reused` when the key came with another request before */
  async once<Answer>(
    db: ClanDatabase,
    { idempotencyKey, requestHash }: Creation,
    work: (db: ClanDatabase) => Promise<Answer>,
  ): Promise<Answer> {
    if (idempotencyKey === null) return work(db);
    await db.query(`delete from idempotency_key where clan_id = $1 and created_at < now() - $2::interval`, [
      db.clanId,
      KEPT_FOR,
    ]);
    const taken = await db.query(
      `insert into idempotency_key (clan_id, key, request_hash) values ($1, $2, $3)
           on conflict do nothing returning key`,
      [db.clanId, idempotencyKey, requestHash],
    );
    if (taken.length === 0) return (await this.answer<Answer>(db, { idempotencyKey, requestHash })) ?? reused();
    // The answer is written after whatever the work writes last.
    const answer = await work({ ...db, last: lastOf(db) });
    // As text inside the JSON, since jsonb would put the members in another order and so change the entity tag.
    await db.query(
      `update idempotency_key set status = $3, response = to_jsonb($4::text) where clan_id = $1 and key = $2`,
      [db.clanId, idempotencyKey, CREATED, JSON.stringify(answer)],
    );
    return answer;
  }

  /**
   * What the same request was answered before, for work that is not done in one transaction.
   *
   * @returns null when the request comes for the first time
   * @throws ApiError `request.key_reused` when the key came with another request before
   */
  async answer<Answer>(db: ClanDatabase, { idempotencyKey, requestHash }: Creation): Promise<Answer | null> {
    if (idempotencyKey === null) return null;
    const rows = await db.query<{ same: boolean; response: string | null }>(
      `select request_hash = $3 as same, response #>> '{}' as response
         from idempotency_key where clan_id = $1 and key = $2 and created_at >= now() - $4::interval`,
      [db.clanId, idempotencyKey, requestHash, KEPT_FOR],
    );
    const [row] = rows;
    if (row === undefined) return null;
    if (!row.same || row.response === null) reused();
    // Written above by this very operation, whose request had the same hash.
    return JSON.parse(row.response) as Answer;
  }
}

function reused(): never {
  throw new ApiError('request.key_reused', 'this idempotency key came with another request before');
}
