import { Injectable } from '@nestjs/common';
import { uuidv7 } from 'uuidv7';
import type { ClanDatabase } from '../database/clan-transaction.js';

/** The record of who did what; ids only, so that removing a person's data leaves nothing of it here. */
@Injectable()
export class AuditRepository {
  /** The tombstone of a row that is about to go. */
  removed(db: ClanDatabase, kind: string, subjectId: string | null, details: object = {}): Promise<void> {
    return this.did(db, `${kind}.removed`, kind, subjectId, details);
  }

  async did(
    db: ClanDatabase,
    action: string,
    kind: string,
    subjectId: string | null,
    details: object = {},
  ): Promise<void> {
    await db.query(
      `insert into audit_entry (clan_id, id, actor_key_id, action, subject_kind, subject_id, details)
       values ($1, $2, $3, $4, $5, $6, $7)`,
      [db.clanId, uuidv7(), db.keyId, action, kind, subjectId, JSON.stringify(details)],
    );
  }
}
