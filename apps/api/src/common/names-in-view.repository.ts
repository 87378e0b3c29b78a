import { Injectable } from '@nestjs/common';
import type { ClanDatabase } from '../database/clan-transaction.js';

/** What answers say beside figures: these change without the archive's revision. */
@Injectable()
export class NamesInViewRepository {
  /** The same text for the same handles, events with their days, and videos, as far as the reader may see them. */
  async revision(db: ClanDatabase): Promise<string> {
    const rows = await db.query<{ revision: string }>(
      `select concat_ws(' ',
         (select md5(string_agg(concat_ws(' ', id, linked_player_id, handle), ',' order by clan_id, id)) from player),
         (select md5(string_agg(concat_ws(' ', id, starts_on, name), ',' order by clan_id, id)) from event),
         (select md5(string_agg(concat_ws(' ', id, game_id, kind, offset_seconds, url), ',' order by clan_id, id))
            from game_video)) as revision`,
      [],
    );
    return rows[0]?.revision ?? '';
  }
}
