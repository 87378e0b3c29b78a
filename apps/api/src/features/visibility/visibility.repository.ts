import { Injectable } from '@nestjs/common';
import type { ClanDatabase } from '../../database/clan-transaction.js';
import type { SharedWithResponse } from './visibility.dto.js';

/** What has a visibility of its own. */
export type Root = 'event' | 'game' | 'player';

export interface VisibilityRow {
  /** Whether every clan reads the scope that was made for it, and which clans do. */
  readonly chosenPublic: boolean;
  readonly chosenClans: readonly SharedWithResponse[];
  /** Whether every clan, or any other, reads the row where it is now. */
  readonly isPublic: boolean;
  readonly isShared: boolean;
  /** Of a game: whether it is where its event is. */
  readonly withEvent: boolean;
}

const WITH_EVENT: Readonly<Record<Root, string>> = {
  event: 'false',
  player: 'false',
  game: 'exists (select from event e where e.clan_id = x.clan_id and e.id = x.event_id and e.scope_id = x.scope_id)',
};

@Injectable()
export class VisibilityRepository {
  /** Of the clan's own row; null when it has none of that id. Locked where it is about to change. */
  async find(db: ClanDatabase, root: Root, id: string, lock: boolean): Promise<VisibilityRow | null> {
    const rows = await db.query<VisibilityRow & Record<string, unknown>>(
      `select exists (select from scope_reader r where r.scope_id = own.id and r.clan_id is null) as "chosenPublic",
              coalesce((select jsonb_agg(jsonb_build_object('clanId', r.clan_id, 'mayReshare', r.may_reshare)
                                         order by r.clan_id)
                          from scope_reader r where r.scope_id = own.id and r.clan_id is not null), '[]') as "chosenClans",
              app.is_public(x.scope_id) as "isPublic",
              exists (select from scope_reader r where r.scope_id = x.scope_id) as "isShared",
              ${WITH_EVENT[root]} as "withEvent"
         from ${root} x
         left join scope own on own.clan_id = x.clan_id and own.root_id = x.id and own.kind <> 'joint'
        where x.clan_id = $1 and x.id = $2 ${lock ? 'for no key update of x' : ''}`,
      [db.clanId, id],
    );
    return rows[0] ?? null;
  }

  async set(
    db: ClanDatabase,
    root: Root,
    id: string,
    readers: { readonly everyone: boolean; readonly clans: readonly SharedWithResponse[] },
  ): Promise<void> {
    await db.query(`select app.set_visibility($1, $2, $3, $4::uuid[], $5::uuid[])`, [
      root,
      id,
      readers.everyone,
      readers.clans.map(({ clanId }) => clanId),
      readers.clans.filter(({ mayReshare }) => mayReshare).map(({ clanId }) => clanId),
    ]);
  }

  async followEvent(db: ClanDatabase, gameId: string): Promise<void> {
    await db.query(`select app.follow_event($1)`, [gameId]);
  }
}
