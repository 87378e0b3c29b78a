import { Injectable } from '@nestjs/common';
import type { ClanDatabase } from '../../database/clan-transaction.js';
import type { EventInput, EventResponse } from './events.dto.js';

export type EventRow = EventResponse;

export interface EventFilter {
  readonly after: string | null;
  readonly status: string | null;
  readonly own: boolean | null;
}

export interface MatchRow {
  readonly id: string;
  readonly stage: string;
  readonly round: number;
  readonly position: number;
  readonly home: string | null;
  readonly away: string | null;
  readonly homePlayerId: string | null;
  readonly awayPlayerId: string | null;
  readonly winnerPlayerId: string | null;
  readonly status: string;
}

export interface PathRow {
  /** Null for a game outside the bracket. */
  readonly round: number | null;
  readonly stage: string | null;
  readonly importance: string | null;
  readonly status: string;
  readonly opponent: string | null;
  /** Of a match that has a winner. */
  readonly won: boolean | null;
  readonly playedOn: string | null;
  /** Of each game the player's own score, then the opponent's. */
  readonly scores: readonly (readonly [own: number, other: number])[];
}

const EVENT = `
  select id, reference, name, to_char(starts_on, 'YYYY-MM-DD') as "startsOn",
         to_char(ends_on, 'YYYY-MM-DD') as "endsOn", rules_version as "rulesVersion", status, structure,
         grade_scale as "gradeScale", source_id as "sourceId", clan_id = $1 as own
    from event`;

/** In which order a player goes through an event: groups, Swiss rounds, the bracket and its losers' side, the last matches. */
const STAGE_ORDER = `
  coalesce(array_position(array['swiss', 'main', 'losers', 'third place', 'final'], m.stage), 0)`;

@Injectable()
export class EventsRepository {
  /** Events that the reader may see, the clan's own and others', by id. */
  list(db: ClanDatabase, { after, status, own }: EventFilter, limit: number): Promise<EventRow[]> {
    return db.query<EventRow>(
      `${EVENT}
        where ($2::uuid is null or id > $2) and ($3::text is null or status = $3)
          and ($4::boolean is null or (clan_id = $1) = $4)
        order by id limit $5`,
      [db.clanId, after, status, own, limit],
    );
  }

  async find(db: ClanDatabase, eventId: string): Promise<EventRow | null> {
    const rows = await db.query<EventRow>(`${EVENT} where id = $2 order by clan_id <> $1 limit 1`, [
      db.clanId,
      eventId,
    ]);
    return rows[0] ?? null;
  }

  /** The event, the own copy of it and what it is a copy of, as far as the reader may see them. */
  async recordsOf(db: ClanDatabase, eventId: string): Promise<string[]> {
    const rows = await db.query<{ id: string }>(
      `select distinct o.id from event e
         join event o on o.id = e.id or o.id = e.source_id or o.source_id = e.id and o.clan_id = $1
        where e.id = $2 order by o.id`,
      [db.clanId, eventId],
    );
    return rows.map(({ id }) => id);
  }

  /** Those of these events that the reader may see, each once. */
  named(db: ClanDatabase, eventIds: readonly string[]): Promise<Pick<EventRow, 'id' | 'name' | 'startsOn'>[]> {
    return db.query(
      `select distinct on (id) id, name, to_char(starts_on, 'YYYY-MM-DD') as "startsOn"
         from event where id = any($2::uuid[]) order by id, clan_id <> $1`,
      [db.clanId, eventIds],
    );
  }

  async lockOwn(db: ClanDatabase, eventId: string): Promise<EventRow | null> {
    const rows = await db.query<EventRow>(`${EVENT} where clan_id = $1 and id = $2 for no key update`, [
      db.clanId,
      eventId,
    ]);
    return rows[0] ?? null;
  }

  async insert(db: ClanDatabase, eventId: string, input: EventInput): Promise<void> {
    await db.query(
      `insert into event (clan_id, id, scope_id, reference, name, starts_on, ends_on, rules_version, status, structure,
                          grade_scale)
       select $1, $2, s.id, $3, $4, $5, $6, $7, $8, $9, $10 from scope s where s.clan_id = $1 and s.kind = 'private'`,
      [db.clanId, eventId, ...valuesOf(input)],
    );
  }

  async update(db: ClanDatabase, eventId: string, input: EventInput): Promise<void> {
    await db.query(
      `update event set reference = $3, name = $4, starts_on = $5, ends_on = $6, rules_version = $7, status = $8,
                        structure = $9, grade_scale = $10
        where clan_id = $1 and id = $2`,
      [db.clanId, eventId, ...valuesOf(input)],
    );
  }

  /** Games of the event keep it in use, so they are never lost by removing it. */
  async remove(db: ClanDatabase, eventId: string): Promise<void> {
    await db.query(`delete from event where clan_id = $1 and id = $2`, [db.clanId, eventId]);
  }

  /** Grades that entrants of the event have and that a scale does not know. */
  async gradesOutside(db: ClanDatabase, eventId: string, scale: readonly string[]): Promise<string[]> {
    const rows = await db.query<{ grade: string }>(
      `select distinct g.value as grade from entrant n, jsonb_each_text(n.unit_grades) g
        where n.clan_id = $1 and n.event_id = $2 and g.value <> all ($3::text[]) order by 1`,
      [db.clanId, eventId, scale],
    );
    return rows.map(({ grade }) => grade);
  }

  /** Matches in the order of the bracket, with the players as one person each. */
  matches(db: ClanDatabase, eventId: string): Promise<MatchRow[]> {
    return db.query<MatchRow>(
      `select m.id, m.stage, m.round, m.position, hp.handle as home, ap.handle as away,
              coalesce(hp.linked_player_id, hp.id) as "homePlayerId",
              coalesce(ap.linked_player_id, ap.id) as "awayPlayerId",
              case m.winner_entrant_id when m.home_entrant_id then coalesce(hp.linked_player_id, hp.id)
                                       when m.away_entrant_id then coalesce(ap.linked_player_id, ap.id) end
                as "winnerPlayerId", m.status
         from match m
         left join entrant he on he.clan_id = m.clan_id and he.id = m.home_entrant_id
         left join player hp on hp.clan_id = he.clan_id and hp.id = he.player_id
         left join entrant ae on ae.clan_id = m.clan_id and ae.id = m.away_entrant_id
         left join player ap on ap.clan_id = ae.clan_id and ap.id = ae.player_id
        where m.event_id = $1
        order by ${STAGE_ORDER}, m.round, m.position`,
      [eventId],
    );
  }

  /** The player's matches and the games outside of them, each with the scores of its games, the player's own first. */
  path(db: ClanDatabase, eventId: string, playerId: string): Promise<PathRow[]> {
    return db.query<PathRow>(
      `with person as (select id from player where coalesce(linked_player_id, id) = $2),
            played as (
              select g.match_id, g.importance, g.played_at, g.game_number,
                     case when g.home_player_id in (select id from person) then g.away_player_id
                          else g.home_player_id end as opponent_id,
                     case when g.home_player_id in (select id from person) then g.home_score else g.away_score end as own,
                     case when g.home_player_id in (select id from person) then g.away_score else g.home_score end as other
                from game g
               where g.event_id = $1
                 and (g.home_player_id in (select id from person) or g.away_player_id in (select id from person)))
       select m.round, m.stage, ${STAGE_ORDER} as stage_order, null as importance, m.status, p.handle as opponent,
              case when m.winner_entrant_id is not null then m.winner_entrant_id = own.id end as won,
              to_char(coalesce(min(g.played_at), m.scheduled_at) at time zone 'UTC', 'YYYY-MM-DD') as "playedOn",
              coalesce(array_agg(array[g.own, g.other] order by g.game_number)
                         filter (where g.own is not null and g.other is not null), '{}') as scores
         from match m
         join entrant own on own.clan_id = m.clan_id and own.id in (m.home_entrant_id, m.away_entrant_id)
                         and own.player_id in (select id from person)
         left join entrant e on e.clan_id = m.clan_id and e.id <> own.id
                            and e.id in (m.home_entrant_id, m.away_entrant_id)
         left join player p on p.clan_id = e.clan_id and p.id = e.player_id
         left join played g on g.match_id = m.id
        where m.event_id = $1
        group by m.clan_id, m.id, own.id, p.handle
       union all
       select null, null, null, g.importance, 'finished', p.handle, null,
              to_char(g.played_at at time zone 'UTC', 'YYYY-MM-DD'),
              case when g.own is null or g.other is null then '{}' else array[array[g.own, g.other]] end
         from played g left join player p on p.id = g.opponent_id
        where g.match_id is null
        order by 3 nulls first, 1 nulls first, 8`,
      [eventId, playerId],
    );
  }
}

function valuesOf(input: EventInput): readonly unknown[] {
  return [
    input.reference,
    input.name,
    input.startsOn ?? null,
    input.endsOn ?? null,
    input.rulesVersion ?? null,
    input.status ?? 'planned',
    input.structure ?? null,
    input.gradeScale ?? null,
  ];
}
