import { Injectable } from '@nestjs/common';
import type { ClanDatabase } from '../../database/clan-transaction.js';
import type { FeedEntryResponse } from './feed.dto.js';

/** Whose feed, and what of it: the whole of the clan's own, or of one event. */
export interface FeedSource {
  readonly clanId: string;
  readonly eventId: string | null;
}

const ENTRY = `
  select sequence::float8 as sequence, kind, to_char(told_at at time zone 'UTC', 'YYYY-MM-DD"T"HH24:MI:SS"Z"') as at,
         event_id as "eventId", match_ids as "matchIds"
    from feed_entry`;

/** What the triggers of the bracket have told. */
@Injectable()
export class FeedRepository {
  /** Whose event that is for the reader, the own one first; null for one that the reader may not see. */
  async ownerOf(db: ClanDatabase, eventId: string): Promise<string | null> {
    const rows = await db.query<{ clanId: string }>(
      `select clan_id as "clanId" from event where id = $1 order by clan_id <> $2, clan_id limit 1`,
      [eventId, db.clanId],
    );
    return rows[0]?.clanId ?? null;
  }

  /** In the order of their numbers, which is the order in which they were committed. */
  after(db: ClanDatabase, { clanId, eventId }: FeedSource, after: number, limit: number): Promise<FeedEntryResponse[]> {
    return db.query<FeedEntryResponse & Record<string, unknown>>(
      `${ENTRY} where clan_id = $1 and ($2::uuid is null or event_id = $2) and sequence > $3 order by sequence limit $4`,
      [clanId, eventId, after, limit],
    );
  }

  /** Number of the newest entry; 0 before the first. */
  async newest(db: ClanDatabase, { clanId, eventId }: FeedSource): Promise<number> {
    const rows = await db.query<{ newest: number }>(
      `select coalesce(max(sequence), 0)::float8 as newest
         from feed_entry where clan_id = $1 and ($2::uuid is null or event_id = $2)`,
      [clanId, eventId],
    );
    return rows[0]?.newest ?? 0;
  }

  /** Whether an entry is still kept; then so is every one after it. */
  async keeps(db: ClanDatabase, { clanId }: FeedSource, sequence: number): Promise<boolean> {
    const rows = await db.query(`select from feed_entry where clan_id = $1 and sequence = $2`, [clanId, sequence]);
    return rows.length > 0;
  }
}
