import { Injectable } from '@nestjs/common';
import type { QueryResultRow } from 'pg';
import { instant } from '../../common/instant-column.js';
import type { Right } from '../../common/rights.js';
import type { ClanDatabase } from '../../database/clan-transaction.js';
import type { Secret } from '../../database/new-secret.js';
import type { KeyResponse } from './keys.dto.js';

export interface NewKeyRow {
  readonly id: string;
  readonly name: string;
  readonly scopes: readonly Right[];
  readonly days: number | null;
  readonly personal: boolean;
  readonly key: Secret;
}

/** Programs' keys only: members stand in the same table. Who may not manage sees only those that were made with it. */
const KEY = `
  select k.id, k.name, k.prefix, k.rights as scopes, k.person_scope_id is not null as personal, m.name as "madeBy",
         ${instant('k.created_at')} as "createdAt", ${instant('k.expires_at')} as "expiresAt",
         ${instant('k.last_used_at')} as "lastUsedAt", ${instant('k.revoked_at')} as "revokedAt"
    from api_key k left join api_key m on m.clan_id = k.clan_id and m.id = k.made_by
   where k.clan_id = $1 and k.role is null and (k.made_by = $2 or (select app.may('manage')))`;

@Injectable()
export class KeysRepository {
  list(db: ClanDatabase, after: string | null, limit: number): Promise<KeyResponse[]> {
    return db.query<KeyResponse & QueryResultRow>(`${KEY} and ($3::uuid is null or k.id > $3) order by k.id limit $4`, [
      db.clanId,
      db.keyId,
      after,
      limit,
    ]);
  }

  async find(db: ClanDatabase, id: string): Promise<KeyResponse | null> {
    const rows = await db.query<KeyResponse & QueryResultRow>(`${KEY} and k.id = $3`, [db.clanId, db.keyId, id]);
    return rows[0] ?? null;
  }

  /** Row-level security refuses a key that may do more than its maker. */
  async insert(db: ClanDatabase, { id, name, scopes, days, personal, key }: NewKeyRow): Promise<void> {
    await db.query(
      `insert into api_key (clan_id, id, name, prefix, key_hash, rights, made_by, expires_at, person_scope_id)
       values ($1, $2, $3, $4, $5, $6, $7, now() + make_interval(days => $8::int),
               case when $9 then app.my_scope() end)`,
      [db.clanId, id, name, key.prefix, key.digest, scopes, db.keyId, days, personal],
    );
  }

  async revoke(db: ClanDatabase, id: string): Promise<void> {
    await db.query(`update api_key set revoked_at = now() where clan_id = $1 and id = $2 and revoked_at is null`, [
      db.clanId,
      id,
    ]);
  }
}
