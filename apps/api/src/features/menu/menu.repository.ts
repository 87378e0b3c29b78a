import { Injectable } from '@nestjs/common';
import type { ClanDatabase } from '../../database/clan-transaction.js';

/** A call of the menu with its terms as they are stored. */
export interface MenuCallRow {
  readonly id: string;
  readonly side: 'offense' | 'defense';
  readonly name: string;
  readonly personnel: number | null;
  readonly formation: number | null;
  readonly concept: number | null;
  readonly front: number | null;
  readonly coverage: number | null;
  readonly pressure: number | null;
  readonly rehearsed: boolean;
  readonly reachableByCheck: boolean;
}

const CALL = `select id, side, name, personnel, formation, concept, front, coverage, pressure, rehearsed,
                     reachable_by_check as "reachableByCheck" from menu_call`;

@Injectable()
export class MenuRepository {
  list(
    db: ClanDatabase,
    filter: { readonly after: string | null; readonly side: string | null; readonly rehearsed: boolean | null },
    limit: number,
  ): Promise<MenuCallRow[]> {
    return db.query<MenuCallRow & Record<string, unknown>>(
      `${CALL} where clan_id = $1 and ($2::uuid is null or id > $2) and ($3::text is null or side = $3)
                 and ($4::boolean is null or rehearsed = $4)
        order by id limit $5`,
      [db.clanId, filter.after, filter.side, filter.rehearsed, limit],
    );
  }

  /** All of them, with the terms as they are stored. */
  all(db: ClanDatabase): Promise<MenuCallRow[]> {
    return db.query<MenuCallRow & Record<string, unknown>>(`${CALL} where clan_id = $1 order by id`, [db.clanId]);
  }

  async find(db: ClanDatabase, id: string): Promise<MenuCallRow | null> {
    const rows = await db.query<MenuCallRow & Record<string, unknown>>(`${CALL} where clan_id = $1 and id = $2`, [
      db.clanId,
      id,
    ]);
    return rows[0] ?? null;
  }

  async lock(db: ClanDatabase, id: string): Promise<MenuCallRow | null> {
    const rows = await db.query<MenuCallRow & Record<string, unknown>>(
      `${CALL} where clan_id = $1 and id = $2 for no key update`,
      [db.clanId, id],
    );
    return rows[0] ?? null;
  }

  async insert(db: ClanDatabase, row: MenuCallRow): Promise<void> {
    await db.query(
      `insert into menu_call (clan_id, id, scope_id, side, name, personnel, formation, concept, front, coverage, pressure,
                              rehearsed, reachable_by_check)
       select $1, $2, s.id, $3, $4, $5, $6, $7, $8, $9, $10, $11, $12 from scope s where s.clan_id = $1 and s.kind = 'private'`,
      [db.clanId, ...valuesOf(row)],
    );
  }

  async update(db: ClanDatabase, row: MenuCallRow): Promise<void> {
    await db.query(
      `update menu_call set side = $3, name = $4, personnel = $5, formation = $6, concept = $7, front = $8, coverage = $9,
                            pressure = $10, rehearsed = $11, reachable_by_check = $12
        where clan_id = $1 and id = $2`,
      [db.clanId, ...valuesOf(row)],
    );
  }

  /** Own calls that were logged by it stay, without the name. */
  async remove(db: ClanDatabase, id: string): Promise<void> {
    await db.query(`delete from menu_call where clan_id = $1 and id = $2`, [db.clanId, id]);
  }
}

function valuesOf(row: MenuCallRow): readonly unknown[] {
  const { id, side, name, personnel, formation, concept, front, coverage, pressure, rehearsed, reachableByCheck } = row;
  return [id, side, name, personnel, formation, concept, front, coverage, pressure, rehearsed, reachableByCheck];
}
