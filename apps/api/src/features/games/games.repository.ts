import { Injectable } from '@nestjs/common';
import { uuidv7 } from 'uuidv7';
import type { ClanDatabase } from '../../database/clan-transaction.js';
import type { GameInput, GameResponse, VideoInput } from './games.dto.js';

export interface GameFilter {
  readonly after: string | null;
  readonly playerId: string | null;
  readonly eventId: string | null;
  readonly importance: string | null;
  readonly own: boolean | null;
}

const GAME = `
  select g.id, g.reference, g.event_id as "eventId", g.match_id as "matchId", g.game_number as "gameNumber", g.round,
         g.home_player_id as "homePlayerId", g.away_player_id as "awayPlayerId", h.handle as home, a.handle as away,
         to_char(g.played_at at time zone 'UTC', 'YYYY-MM-DD"T"HH24:MI:SS"Z"') as "playedAt", g.importance,
         g.rules_version as "rulesVersion", g.quarter_minutes as "quarterMinutes", g.settings,
         g.home_squad as "homeSquad", g.away_squad as "awaySquad", g.coin_toss as "coinToss",
         g.home_score as "homeScore", g.away_score as "awayScore", g.ending, g.contest_id as "contestId",
         k.linked_contest_id as "linkedContestId",
         coalesce((select jsonb_agg(jsonb_build_object('kind', v.kind, 'url', v.url, 'offsetSeconds', v.offset_seconds)
                                    order by v.id)
                     from game_video v where v.clan_id = g.clan_id and v.game_id = g.id), '[]') as videos,
         coalesce((select jsonb_agg(jsonb_build_object('id', c.id, 'reference', c.reference, 'chartedBy', c.charted_by,
                                                       'plays', c.plays, 'revision', c.revision,
                                                       'filmScope', c.film_scope) order by c.id)
                     from chart c where c.clan_id = g.clan_id and c.game_id = g.id), '[]') as charts,
         g.clan_id = $1 as own
    from game g
    join contest k on k.clan_id = g.clan_id and k.id = g.contest_id
    join player h on h.clan_id = g.clan_id and h.id = g.home_player_id
    join player a on a.clan_id = g.clan_id and a.id = g.away_player_id`;

/** The scope of a game is that of its event, else the clan's private one. */
const SCOPE = `coalesce((select e.scope_id from event e where e.clan_id = $1 and e.id = $4),
                        (select s.id from scope s where s.clan_id = $1 and s.kind = 'private'))`;

@Injectable()
export class GamesRepository {
  /** Games that the reader may see with their charts, by id. */
  list(db: ClanDatabase, filter: GameFilter, limit: number): Promise<GameResponse[]> {
    const { after, playerId, eventId, importance, own } = filter;
    return db.query<GameResponse & Record<string, unknown>>(
      `${GAME}
        where ($2::uuid is null or g.id > $2) and ($3::uuid is null or $3 in (g.home_player_id, g.away_player_id))
          and ($4::uuid is null or g.event_id = $4) and ($5::text is null or g.importance = $5)
          and ($6::boolean is null or (g.clan_id = $1) = $6)
        order by g.id limit $7`,
      [db.clanId, after, playerId, eventId, importance, own, limit],
    );
  }

  async find(db: ClanDatabase, gameId: string): Promise<GameResponse | null> {
    const rows = await db.query<GameResponse & Record<string, unknown>>(
      `${GAME} where g.id = $2 order by g.clan_id <> $1 limit 1`,
      [db.clanId, gameId],
    );
    return rows[0] ?? null;
  }

  async lockOwn(db: ClanDatabase, gameId: string): Promise<GameResponse | null> {
    const rows = await db.query<GameResponse & Record<string, unknown>>(
      `${GAME} where g.clan_id = $1 and g.id = $2 for no key update of g`,
      [db.clanId, gameId],
    );
    return rows[0] ?? null;
  }

  async insert(db: ClanDatabase, gameId: string, contestId: string, input: GameInput): Promise<void> {
    await db.query(
      `with scoped as (select ${SCOPE} as scope_id),
            contested as (insert into contest (clan_id, id, scope_id, linked_contest_id)
                          select $1, $3, scope_id, $21::uuid from scoped returning id)
       insert into game (clan_id, id, scope_id, contest_id, event_id, reference, match_id, game_number, round,
                         home_player_id, away_player_id, played_at, importance, rules_version, quarter_minutes, settings,
                         home_squad, away_squad, coin_toss, home_score, away_score, ending)
       select $1, $2, scope_id, c.id, $4, $5, $6, $7, $8, $9, $10, $11, $12, $13, $14, $15, $16, $17, $18, $19, $20, $22
         from scoped, contested c`,
      [db.clanId, gameId, contestId, ...valuesOf(input), input.linkedContestId ?? null, input.ending ?? 'completed'],
    );
    await this.insertVideos(db, gameId, input.videos ?? []);
  }

  /** A game that changes its event changes to who reads that one; otherwise it stays as it was shared. */
  async update(db: ClanDatabase, gameId: string, contestId: string, input: GameInput): Promise<void> {
    await db.query(
      `update contest set linked_contest_id = $4,
                          scope_id = case when g.event_id is distinct from $5::uuid
                                          then coalesce((select e.scope_id from event e where e.clan_id = $1 and e.id = $5),
                                                        (select s.id from scope s where s.clan_id = $1 and s.kind = 'private'))
                                          else contest.scope_id end
         from game g
        where contest.clan_id = $1 and contest.id = $2 and g.clan_id = $1 and g.id = $3`,
      [db.clanId, contestId, gameId, input.linkedContestId ?? null, input.eventId ?? null],
    );
    await db.query(
      `update game set scope_id = case when event_id is distinct from $4::uuid then ${SCOPE} else scope_id end,
                       event_id = $4, reference = $5, match_id = $6, game_number = $7, round = $8, home_player_id = $9,
                       away_player_id = $10, played_at = $11, importance = $12, rules_version = $13,
                       quarter_minutes = $14, settings = $15, home_squad = $16, away_squad = $17, coin_toss = $18,
                       home_score = $19, away_score = $20, ending = $21
        where clan_id = $1 and id = $2 and contest_id = $3`,
      [db.clanId, gameId, contestId, ...valuesOf(input), input.ending ?? 'completed'],
    );
    await db.query(`delete from game_video where clan_id = $1 and game_id = $2`, [db.clanId, gameId]);
    await this.insertVideos(db, gameId, input.videos ?? []);
  }

  /** With film, charts, plays and own calls; the contest goes with its last record. */
  async remove(db: ClanDatabase, { id, contestId }: Pick<GameResponse, 'id' | 'contestId'>): Promise<void> {
    await db.query(`delete from game where clan_id = $1 and id = $2`, [db.clanId, id]);
    await db.query(
      `delete from contest k where k.clan_id = $1 and k.id = $2
          and not exists (select from game g where g.clan_id = $1 and g.contest_id = k.id)`,
      [db.clanId, contestId],
    );
  }

  async scopeOf(db: ClanDatabase, gameId: string): Promise<number> {
    const rows = await db.query<{ scopeId: number }>(
      `select scope_id as "scopeId" from game where clan_id = $1 and id = $2`,
      [db.clanId, gameId],
    );
    return rows[0]?.scopeId ?? 0;
  }

  /** To be called last in a transaction: every writer of a scope waits for its row. */
  async raiseScopes(db: ClanDatabase, scopeIds: readonly number[]): Promise<void> {
    await db.query(`select app.raise_scope_revision($1::int[])`, [scopeIds]);
  }

  private async insertVideos(db: ClanDatabase, gameId: string, videos: readonly VideoInput[]): Promise<void> {
    if (videos.length === 0) return;
    await db.query(
      `insert into game_video (clan_id, id, scope_id, game_id, kind, url, offset_seconds)
       select $1, v.id, g.scope_id, g.id, v.kind, v.url, v.seconds
         from game g, unnest($3::uuid[], $4::text[], $5::text[], $6::int[]) as v (id, kind, url, seconds)
        where g.clan_id = $1 and g.id = $2`,
      [
        db.clanId,
        gameId,
        // Ids rise, so that they keep the order in which the videos were given.
        videos.map(() => uuidv7()),
        videos.map(({ kind }) => kind),
        videos.map(({ url }) => url),
        videos.map(({ offsetSeconds }) => offsetSeconds ?? 0),
      ],
    );
  }
}

/** From the event on, in the order of both statements. */
function valuesOf(input: GameInput): readonly unknown[] {
  return [
    input.eventId ?? null,
    input.reference,
    input.matchId ?? null,
    input.gameNumber ?? 1,
    input.round ?? null,
    input.homePlayerId,
    input.awayPlayerId,
    input.playedAt ?? null,
    input.importance,
    input.rulesVersion ?? null,
    input.quarterMinutes ?? null,
    JSON.stringify(input.settings ?? {}),
    input.homeSquad ?? null,
    input.awaySquad ?? null,
    input.coinToss ?? null,
    input.homeScore ?? null,
    input.awayScore ?? null,
  ];
}
