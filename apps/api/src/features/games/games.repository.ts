import { Injectable } from '@nestjs/common';
import type { ClanDatabase } from '../../database/clan-transaction.js';
import type { GameResponse } from './games.dto.js';

@Injectable()
export class GamesRepository {
  /** Games that the reader may see with their charts, by id; of one player and of one event where asked for. */
  list(
    db: ClanDatabase,
    { after, playerId, eventId }: { after: string | null; playerId: string | null; eventId: string | null },
    limit: number,
  ): Promise<GameResponse[]> {
    return db.query<GameResponse>(
      `select g.id, g.reference, g.event_id as "eventId", h.handle as home, a.handle as away,
              to_char(g.played_at at time zone 'UTC', 'YYYY-MM-DD"T"HH24:MI:SS"Z"') as "playedAt", g.importance,
              g.home_score as "homeScore", g.away_score as "awayScore",
              coalesce((select jsonb_agg(jsonb_build_object('id', c.id, 'reference', c.reference, 'chartedBy', c.charted_by,
                                                            'plays', c.plays, 'revision', c.revision,
                                                            'filmScope', c.film_scope) order by c.id)
                          from chart c where c.clan_id = g.clan_id and c.game_id = g.id), '[]') as charts
         from game g
         join player h on h.clan_id = g.clan_id and h.id = g.home_player_id
         join player a on a.clan_id = g.clan_id and a.id = g.away_player_id
        where ($1::uuid is null or g.id > $1) and ($2::uuid is null or $2 in (g.home_player_id, g.away_player_id))
          and ($3::uuid is null or g.event_id = $3)
        order by g.id limit $4`,
      [after, playerId, eventId, limit],
    );
  }
}
