import { Injectable } from '@nestjs/common';
import type { QueryResultRow } from 'pg';
import type { Role } from '../../common/rights.js';
import type { ClanDatabase } from '../../database/clan-transaction.js';
import type { MemberResponse } from './members.dto.js';

/** Members act in the clan as keys do, and stand beside them: rows of `api_key` that have a role. */
const MEMBER = `
  select id, name, role, to_char(created_at at time zone 'UTC', 'YYYY-MM-DD"T"HH24:MI:SS"Z"') as "joinedAt"
    from api_key
   where clan_id = $1 and role is not null and revoked_at is null`;

@Injectable()
export class MembersRepository {
  list(db: ClanDatabase, after: string | null, limit: number): Promise<MemberResponse[]> {
    return db.query<MemberResponse & QueryResultRow>(
      `${MEMBER} and ($2::uuid is null or id > $2) order by id limit $3`,
      [db.clanId, after, limit],
    );
  }

  async find(db: ClanDatabase, id: string): Promise<MemberResponse | null> {
    const rows = await db.query<MemberResponse & QueryResultRow>(`${MEMBER} and id = $2`, [db.clanId, id]);
    return rows[0] ?? null;
  }

  async setRole(db: ClanDatabase, id: string, role: Role): Promise<void> {
    await db.query('select app.set_role($1, $2)', [id, role]);
  }

  async remove(db: ClanDatabase, id: string): Promise<void> {
    await db.query('select app.remove_member($1)', [id]);
  }

  async handOver(db: ClanDatabase, id: string): Promise<void> {
    await db.query('select app.hand_over($1)', [id]);
  }
}
