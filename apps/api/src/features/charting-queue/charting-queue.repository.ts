import { Injectable } from '@nestjs/common';
import type { FilmScope } from '#domain/charting/film-scope.js';
import type { ClanDatabase } from '../../database/clan-transaction.js';

/** A contest of somebody who may be met, once, with how much of it is charted in view. */
export interface FilmedGame {
  readonly gameId: string;
  readonly name: string;
  readonly homeHandle: string;
  readonly awayHandle: string;
  readonly homePlayerId: string;
  readonly awayPlayerId: string;
  readonly playedOn: string | null;
  readonly importance: string;
  readonly quarterMinutes: number | null;
  readonly url: string | null;
  readonly offsetSeconds: number;
  readonly scopes: readonly FilmScope[];
  /** Earliest second of the charted film by quarter, where a chart in view has one. */
  readonly quarterSeconds: readonly { readonly quarter: number; readonly second: number }[];
}

@Injectable()
export class ChartingQueueRepository {
  /**
   * Games of these people, the clan's own record of a contest before another's, the newest first.
   *
   * @param gameId - any record of the one contest that is asked about; null for all
   */
  games(db: ClanDatabase, identities: readonly string[], gameId: string | null): Promise<FilmedGame[]> {
    return db.query<FilmedGame & Record<string, unknown>>(
      `with person as (select id, coalesce(linked_player_id, id) as identity, handle from player),
            record as (
              select coalesce(k.linked_contest_id, k.id) as contest, g.*, h.identity as home, a.identity as away,
                     h.handle as home_handle, a.handle as away_handle
                from game g
                join contest k on k.clan_id = g.clan_id and k.id = g.contest_id
                join person h on h.id = g.home_player_id
                join person a on a.id = g.away_player_id
               where h.identity = any($2::uuid[]) or a.identity = any($2::uuid[])),
            chosen as (
              select distinct on (contest) * from record
               where $3::uuid is null or contest in (select contest from record where id = $3)
               order by contest, clan_id <> $1, id)
       select c.id as "gameId", c.home as "homePlayerId", c.away as "awayPlayerId",
              c.home_handle as "homeHandle", c.away_handle as "awayHandle",
              c.home_handle || ' - ' || c.away_handle || coalesce(', ' || e.name, '')
                      || coalesce(', ' || to_char(c.played_at at time zone 'UTC', 'YYYY-MM-DD'), '') as name,
              to_char(c.played_at at time zone 'UTC', 'YYYY-MM-DD') as "playedOn", c.importance,
              c.quarter_minutes as "quarterMinutes", v.url, coalesce(v.offset_seconds, 0) as "offsetSeconds",
              coalesce((select jsonb_agg(t.film_scope) from record r
                          join chart t on t.clan_id = r.clan_id and t.game_id = r.id and t.kind <> 'own call log'
                         where r.contest = c.contest and t.plays > 0), '[]') as scopes,
              coalesce((select jsonb_agg(jsonb_build_object('quarter', q.quarter, 'second', q.second) order by q.quarter)
                          from (select p.quarter, min(coalesce(p.line_up_second, p.snap_second)) as second
                                  from record r join play p on p.clan_id = r.clan_id and p.game_id = r.id
                                 where r.contest = c.contest and p.quarter is not null
                                   and coalesce(p.line_up_second, p.snap_second) is not null
                                 group by p.quarter) q), '[]') as "quarterSeconds"
         from chosen c
         left join event e on e.clan_id = c.clan_id and e.id = c.event_id
         left join lateral (
           select v.url, v.offset_seconds from game_video v where v.clan_id = c.clan_id and v.game_id = c.id
            order by array_position(array['neutral', 'own view', 'opponent view', 'highlights'], v.kind), v.id limit 1) v
           on true
        order by c.played_at desc nulls last, c.id`,
      [db.clanId, identities, gameId],
    );
  }
}
