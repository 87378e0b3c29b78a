import { Injectable } from '@nestjs/common';
import { filmScopeRank, type FilmScope } from '#domain/charting/film-scope.js';
import type { ClanDatabase } from '../../database/clan-transaction.js';
import type { ChartChange, ChartResponse, NewChart } from './chart-records.dto.js';

export interface ChartFilter {
  readonly after: string | null;
  readonly gameId: string | null;
  readonly own: boolean | null;
}

const CHART = `
  select id, game_id as "gameId", reference, kind, charted_by as "chartedBy",
         to_char(charted_at at time zone 'UTC', 'YYYY-MM-DD"T"HH24:MI:SS"Z"') as "chartedAt",
         jsonb_build_object('offense', film_scope->'offense', 'downs', film_scope->'downs',
                            'quarters', film_scope->'quarters', 'fields', film_scope->'fields') as "filmScope",
         plays, revision, clan_id = $1 as own
    from chart`;

@Injectable()
export class ChartRecordsRepository {
  list(db: ClanDatabase, { after, gameId, own }: ChartFilter, limit: number): Promise<ChartResponse[]> {
    return db.query<ChartResponse & Record<string, unknown>>(
      `${CHART}
        where ($2::uuid is null or id > $2) and ($3::uuid is null or game_id = $3)
          and ($4::boolean is null or (clan_id = $1) = $4)
        order by id limit $5`,
      [db.clanId, after, gameId, own, limit],
    );
  }

  async find(db: ClanDatabase, chartId: string): Promise<ChartResponse | null> {
    const rows = await db.query<ChartResponse & Record<string, unknown>>(
      `${CHART} where id = $2 order by clan_id <> $1 limit 1`,
      [db.clanId, chartId],
    );
    return rows[0] ?? null;
  }

  async lockOwn(db: ClanDatabase, chartId: string): Promise<ChartResponse | null> {
    const rows = await db.query<ChartResponse & Record<string, unknown>>(
      `${CHART} where clan_id = $1 and id = $2 for no key update`,
      [db.clanId, chartId],
    );
    return rows[0] ?? null;
  }

  /** The game's scope decides who reads the chart. A game that the clan does not have takes no chart. */
  async insert(db: ClanDatabase, chartId: string, input: NewChart): Promise<boolean> {
    const rows = await db.query(
      `insert into chart (clan_id, id, game_id, scope_id, kind, reference, charted_by, charted_at, film_scope,
                          film_scope_rank)
       select $1, $2, g.id, g.scope_id, $4, $5, $6, $7, $8, $9 from game g where g.clan_id = $1 and g.id = $3
       returning id`,
      [db.clanId, chartId, input.gameId, input.kind ?? 'charted', ...valuesOf(input)],
    );
    return rows.length > 0;
  }

  async update(db: ClanDatabase, chartId: string, input: ChartChange): Promise<void> {
    await db.query(
      `update chart set reference = $3, charted_by = $4, charted_at = $5, film_scope = $6, film_scope_rank = $7
        where clan_id = $1 and id = $2`,
      [db.clanId, chartId, ...valuesOf(input)],
    );
  }

  async remove(db: ClanDatabase, chartId: string): Promise<void> {
    await db.query(`delete from chart where clan_id = $1 and id = $2`, [db.clanId, chartId]);
  }

  /** Charts of an own game that people made. */
  async chartedOf(db: ClanDatabase, gameId: string): Promise<string[]> {
    const rows = await db.query<{ id: string }>(
      `select id from chart where clan_id = $1 and game_id = $2 and kind <> 'reconciled' order by id for no key update`,
      [db.clanId, gameId],
    );
    return rows.map(({ id }) => id);
  }

  /** To be called last in a transaction: every writer of a scope waits for its row. */
  async raiseScope(db: ClanDatabase, gameId: string): Promise<void> {
    await db.query(`select app.raise_scope_revision(array(select scope_id from game where clan_id = $1 and id = $2))`, [
      db.clanId,
      gameId,
    ]);
  }
}

function valuesOf({ reference, chartedBy, chartedAt, filmScope }: ChartChange): readonly unknown[] {
  const scope: FilmScope = {
    offense: filmScope?.offense ?? null,
    downs: filmScope?.downs ?? null,
    quarters: filmScope?.quarters ?? null,
    fields: filmScope?.fields ?? null,
  };
  return [reference, chartedBy ?? null, chartedAt ?? null, JSON.stringify(scope), filmScopeRank(scope)];
}
