import { Injectable } from '@nestjs/common';
import type { ClanDatabase } from '../../database/clan-transaction.js';
import type { AuditEntryResponse } from './audit.dto.js';

export interface AuditFilter {
  readonly after: string | null;
  readonly subjectId: string | null;
  readonly action: string | null;
}

@Injectable()
export class AuditReadingRepository {
  /** The latest first; ids rise with time. */
  list(db: ClanDatabase, { after, subjectId, action }: AuditFilter, limit: number): Promise<AuditEntryResponse[]> {
    return db.query<AuditEntryResponse & Record<string, unknown>>(
      `select a.id, to_char(a.at at time zone 'UTC', 'YYYY-MM-DD"T"HH24:MI:SS"Z"') as at, a.actor_key_id as "actorId",
              k.name as actor, a.action, a.subject_kind as "subjectKind", a.subject_id as "subjectId", a.details
         from audit_entry a join api_key k on k.clan_id = a.clan_id and k.id = a.actor_key_id
        where a.clan_id = $1 and ($2::uuid is null or a.id < $2) and ($3::uuid is null or a.subject_id = $3)
          and ($4::text is null or a.action = $4)
        order by a.id desc limit $5`,
      [db.clanId, after, subjectId, action, limit],
    );
  }
}
