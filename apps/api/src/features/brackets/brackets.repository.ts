import { Injectable } from '@nestjs/common';
import type { Stage } from '#domain/bracket/bracket-shape.js';
import type { ClanDatabase } from '../../database/clan-transaction.js';

/** Where a player comes from, as it is stored: matches by their address, which a copy of the event keeps. */
export type StoredSource =
  | { readonly from: 'winner' | 'loser'; readonly stage: Stage; readonly round: number; readonly position: number }
  | { readonly from: 'place'; readonly stage: Stage; readonly place: number }
  | { readonly from: 'pairing' };

export interface LinkedMatch {
  readonly id: string;
  readonly stage: Stage;
  readonly round: number;
  readonly position: number;
  readonly bestOf: number;
  readonly homeEntrantId: string | null;
  readonly awayEntrantId: string | null;
  readonly winnerEntrantId: string | null;
  readonly homeWins: number | null;
  readonly awayWins: number | null;
  readonly status: string;
  readonly homeSource: StoredSource | null;
  readonly awaySource: StoredSource | null;
  readonly decider: boolean;
}

export interface BracketEntrant {
  readonly id: string;
  /** The player as one person across clans. */
  readonly playerId: string;
  readonly handle: string;
  readonly seed: number | null;
}

/** Who beat whom how often in an event, as far as the reader may see: matches, and games outside of them. */
export interface PlayedPair {
  readonly eventId: string;
  readonly home: string;
  readonly away: string;
  readonly homeWins: number;
  readonly awayWins: number;
  readonly draws: number;
}

@Injectable()
export class BracketsRepository {
  /** In an order that does not depend on when they were written. */
  matches(db: ClanDatabase, eventId: string, lock = false): Promise<LinkedMatch[]> {
    return db.query<LinkedMatch & Record<string, unknown>>(
      `select id, stage, round, position, best_of as "bestOf", home_entrant_id as "homeEntrantId",
              away_entrant_id as "awayEntrantId", winner_entrant_id as "winnerEntrantId", home_wins as "homeWins",
              away_wins as "awayWins", status, home_source as "homeSource", away_source as "awaySource", decider
         from match where event_id = $1
        order by array_position(array['swiss', 'main', 'losers', 'third place', 'final'], stage) nulls first,
                 length(stage), stage, round, position
        ${lock ? 'for no key update' : ''}`,
      [eventId],
    );
  }

  entrants(db: ClanDatabase, eventId: string): Promise<BracketEntrant[]> {
    return db.query<BracketEntrant & Record<string, unknown>>(
      `select n.id, coalesce(p.linked_player_id, p.id) as "playerId", p.handle, n.seed
         from entrant n join player p on p.clan_id = n.clan_id and p.id = n.player_id
        where n.event_id = $1 order by n.seed nulls last, n.id`,
      [eventId],
    );
  }

  async insert(db: ClanDatabase, eventId: string, matches: readonly LinkedMatch[]): Promise<void> {
    await db.query(
      `insert into match (clan_id, event_id, id, scope_id, stage, round, position, best_of, home_entrant_id,
                          away_entrant_id, status, home_source, away_source, decider)
       select $1, e.id, m.id, e.scope_id, m.stage, m.round, m.position, m."bestOf", m."homeEntrantId",
              m."awayEntrantId", m.status, m."homeSource", m."awaySource", m.decider
         from event e, jsonb_to_recordset($3) as m(id uuid, stage text, round integer, position integer,
              "bestOf" smallint, "homeEntrantId" uuid, "awayEntrantId" uuid, status text, "homeSource" jsonb,
              "awaySource" jsonb, decider boolean)
        where e.clan_id = $1 and e.id = $2`,
      [db.clanId, eventId, JSON.stringify(matches)],
    );
  }

  /** Who plays and how it stands, of matches of one's own. */
  async write(db: ClanDatabase, eventId: string, matches: readonly LinkedMatch[]): Promise<void> {
    await db.query(
      `update match set home_entrant_id = m."homeEntrantId", away_entrant_id = m."awayEntrantId",
                        winner_entrant_id = m."winnerEntrantId", home_wins = m."homeWins", away_wins = m."awayWins",
                        status = m.status
         from jsonb_to_recordset($3) as m(id uuid, "homeEntrantId" uuid, "awayEntrantId" uuid, "winnerEntrantId" uuid,
              "homeWins" smallint, "awayWins" smallint, status text)
        where match.clan_id = $1 and match.event_id = $2 and match.id = m.id`,
      [db.clanId, eventId, JSON.stringify(matches)],
    );
  }

  async nameStructure(db: ClanDatabase, eventId: string, structure: string): Promise<void> {
    await db.query(`update event set structure = $3 where clan_id = $1 and id = $2`, [db.clanId, eventId, structure]);
  }

  /**
   * Every event once, the clan's own record before another clan's; scrimmages and forfeits say nothing of strength. Events
   * in the order in which they were played.
   */
  played(db: ClanDatabase): Promise<PlayedPair[]> {
    return db.query<PlayedPair & Record<string, unknown>>(
      `with chosen as (
         select distinct on (e.reference, e.starts_on) e.clan_id, e.id, e.starts_on
           from event e
          where not exists (select from event o where o.clan_id = $1 and o.source_id = e.id)
          order by e.reference, e.starts_on, e.clan_id <> $1, e.id),
       pair as (
         select c.id, c.starts_on, h.player_id as home, a.player_id as away, m.clan_id,
                greatest(m.home_wins, (m.winner_entrant_id = m.home_entrant_id)::int)::int as home_wins,
                greatest(m.away_wins, (m.winner_entrant_id = m.away_entrant_id)::int)::int as away_wins, 0 as draws
           from match m
           join chosen c on c.clan_id = m.clan_id and c.id = m.event_id
           join entrant h on h.clan_id = m.clan_id and h.id = m.home_entrant_id
           join entrant a on a.clan_id = m.clan_id and a.id = m.away_entrant_id
          where m.winner_entrant_id is not null and m.status = 'finished'
         union all
         select c.id, c.starts_on, g.home_player_id, g.away_player_id, g.clan_id, (g.home_score > g.away_score)::int,
                (g.away_score > g.home_score)::int, (g.away_score = g.home_score)::int
           from game g join chosen c on c.clan_id = g.clan_id and c.id = g.event_id
          where g.match_id is null and g.importance <> 'scrimmage' and g.home_score is not null
            and g.away_score is not null)
       select pair.id as "eventId", coalesce(h.linked_player_id, h.id) as home, coalesce(a.linked_player_id, a.id) as away,
              sum(pair.home_wins)::int as "homeWins", sum(pair.away_wins)::int as "awayWins",
              sum(pair.draws)::int as draws
         from pair
         join player h on h.clan_id = pair.clan_id and h.id = pair.home
         join player a on a.clan_id = pair.clan_id and a.id = pair.away
        group by pair.starts_on, pair.id, 2, 3
        order by pair.starts_on nulls first, pair.id, 2, 3`,
      [db.clanId],
    );
  }
}
