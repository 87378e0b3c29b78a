import { Injectable } from '@nestjs/common';
import type { QueryResultRow } from 'pg';
import { instant } from '../../common/instant-column.js';
import type { Role } from '../../common/rights.js';
import type { ClanDatabase } from '../../database/clan-transaction.js';
import type { Secret } from '../../database/new-secret.js';
import type { InvitationResponse } from './invitations.dto.js';

export interface NewInvitationRow {
  readonly id: string;
  readonly role: Role;
  readonly note: string | null;
  readonly days: number;
  readonly token: Secret;
}

const INVITATION = `
  select id, role, note, prefix, ${instant('created_at')} as "createdAt", ${instant('expires_at')} as "expiresAt",
         ${instant('accepted_at')} as "acceptedAt"
    from invitation
   where clan_id = $1`;

/** Only who may manage sees any: row-level security hides them from everybody else. */
@Injectable()
export class InvitationsRepository {
  list(db: ClanDatabase, after: string | null, limit: number): Promise<InvitationResponse[]> {
    return db.query<InvitationResponse & QueryResultRow>(
      `${INVITATION} and ($2::uuid is null or id > $2) order by id limit $3`,
      [db.clanId, after, limit],
    );
  }

  async find(db: ClanDatabase, id: string): Promise<InvitationResponse | null> {
    const rows = await db.query<InvitationResponse & QueryResultRow>(`${INVITATION} and id = $2`, [db.clanId, id]);
    return rows[0] ?? null;
  }

  async insert(db: ClanDatabase, { id, role, note, days, token }: NewInvitationRow): Promise<void> {
    await db.query(
      `insert into invitation (clan_id, id, role, note, prefix, token_hash, made_by, expires_at)
       values ($1, $2, $3, $4, $5, $6, $7, now() + make_interval(days => $8::int))`,
      [db.clanId, id, role, note, token.prefix, token.digest, db.keyId, days],
    );
  }

  async remove(db: ClanDatabase, id: string): Promise<void> {
    await db.query(`delete from invitation where clan_id = $1 and id = $2`, [db.clanId, id]);
  }
}
