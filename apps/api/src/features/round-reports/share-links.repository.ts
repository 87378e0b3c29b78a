import { Injectable } from '@nestjs/common';
import { instant } from '../../common/instant-column.js';
import type { ClanDatabase } from '../../database/clan-transaction.js';
import type { Secret } from '../../database/new-secret.js';
import type { ShareLinkResponse } from './share-links.dto.js';

const LINK = `
  select l.id, l.prefix, k.name as "madeBy", ${instant('l.created_at')} as "createdAt", ${instant('l.expires_at')} as "expiresAt",
         ${instant('l.revoked_at')} as "revokedAt"
    from share_link l join api_key k on k.clan_id = l.clan_id and k.id = l.made_by
   where l.clan_id = $1 and l.report_id = $2`;

@Injectable()
export class ShareLinksRepository {
  list(db: ClanDatabase, reportId: string, after: string | null, limit: number): Promise<ShareLinkResponse[]> {
    return db.query<ShareLinkResponse & Record<string, unknown>>(
      `${LINK} and ($3::uuid is null or l.id > $3) order by l.id limit $4`,
      [db.clanId, reportId, after, limit],
    );
  }

  async find(db: ClanDatabase, reportId: string, id: string): Promise<ShareLinkResponse | null> {
    const rows = await db.query<ShareLinkResponse & Record<string, unknown>>(`${LINK} and l.id = $3`, [
      db.clanId,
      reportId,
      id,
    ]);
    return rows[0] ?? null;
  }

  async insert(
    db: ClanDatabase,
    link: { readonly id: string; readonly reportId: string; readonly token: Secret; readonly days: number },
  ): Promise<void> {
    const { id, reportId, token, days } = link;
    await db.query(
      `insert into share_link (clan_id, id, report_id, token_hash, prefix, made_by, expires_at)
       values ($1, $2, $3, $4, $5, $6, now() + make_interval(days => $7))`,
      [db.clanId, id, reportId, token.digest, token.prefix, db.keyId, days],
    );
  }

  /** It stays in the list, so that one sees who made it and that it works no more. */
  async revoke(db: ClanDatabase, id: string): Promise<void> {
    await db.query(`update share_link set revoked_at = now() where clan_id = $1 and id = $2 and revoked_at is null`, [
      db.clanId,
      id,
    ]);
  }
}
