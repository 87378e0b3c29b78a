import { Injectable } from '@nestjs/common';
import type { NoteTerms } from '#domain/coaching/note.js';
import { scopeFor, visibleToColumn, type VisibleTo } from '../../common/visible-to.repository.js';
import type { ClanDatabase } from '../../database/clan-transaction.js';

/** What was meant to be called, with its terms as they are stored. */
export interface OwnCallRow extends NoteTerms {
  readonly id: string;
  readonly gameId: string;
  readonly orderInGame: number;
  readonly side: 'offense' | 'defense';
  readonly menuCallId: string | null;
  readonly note: string | null;
  readonly visibleTo: VisibleTo;
}

const CALL = `
  select id, game_id as "gameId", order_in_game as "orderInGame", side, menu_call_id as "menuCallId",
         call_family as "callFamily", concept, formation, front, coverage, pressure, note, ${visibleToColumn()}
    from own_call`;

@Injectable()
export class OwnCallsRepository {
  list(
    db: ClanDatabase,
    filter: { readonly after: string | null; readonly gameId: string | null; readonly side: string | null },
    limit: number,
  ): Promise<OwnCallRow[]> {
    return db.query<OwnCallRow & Record<string, unknown>>(
      `${CALL} where clan_id = $1 and ($2::uuid is null or id > $2) and ($3::uuid is null or game_id = $3)
                 and ($4::text is null or side = $4)
        order by id limit $5`,
      [db.clanId, filter.after, filter.gameId, filter.side, limit],
    );
  }

  ofGames(db: ClanDatabase, gameIds: readonly string[]): Promise<OwnCallRow[]> {
    return db.query<OwnCallRow & Record<string, unknown>>(
      `${CALL} where clan_id = $1 and game_id = any($2::uuid[]) order by id`,
      [db.clanId, gameIds],
    );
  }

  async find(db: ClanDatabase, id: string): Promise<OwnCallRow | null> {
    const rows = await db.query<OwnCallRow & Record<string, unknown>>(`${CALL} where clan_id = $1 and id = $2`, [
      db.clanId,
      id,
    ]);
    return rows[0] ?? null;
  }

  async lock(db: ClanDatabase, id: string): Promise<OwnCallRow | null> {
    const rows = await db.query<OwnCallRow & Record<string, unknown>>(
      `${CALL} where clan_id = $1 and id = $2 for no key update`,
      [db.clanId, id],
    );
    return rows[0] ?? null;
  }

  /** Always private: publishing a game never publishes what was meant in it. */
  async insert(db: ClanDatabase, row: OwnCallRow): Promise<void> {
    await db.query(
      `insert into own_call (clan_id, id, scope_id, game_id, order_in_game, side, menu_call_id, call_family, concept,
                             formation, front, coverage, pressure, note)
       values ($1, $2, $14, $3, $4, $5, $6, $7, $8, $9, $10, $11, $12, $13)`,
      [db.clanId, ...valuesOf(row), await scopeFor(db, row.visibleTo)],
    );
  }

  async update(db: ClanDatabase, row: OwnCallRow): Promise<void> {
    await db.query(
      `update own_call set game_id = $3, order_in_game = $4, side = $5, menu_call_id = $6, call_family = $7, concept = $8,
                           formation = $9, front = $10, coverage = $11, pressure = $12, note = $13, scope_id = $14
        where clan_id = $1 and id = $2`,
      [db.clanId, ...valuesOf(row), await scopeFor(db, row.visibleTo)],
    );
  }

  async remove(db: ClanDatabase, id: string): Promise<void> {
    await db.query(`delete from own_call where clan_id = $1 and id = $2`, [db.clanId, id]);
  }
}

function valuesOf(row: OwnCallRow): readonly unknown[] {
  const { id, gameId, orderInGame, side, menuCallId, callFamily, concept, formation } = row;
  const { front, coverage, pressure, note } = row;
  return [
    ...[id, gameId, orderInGame, side, menuCallId, callFamily, concept, formation],
    ...[front, coverage, pressure, note],
  ];
}
