import { Injectable } from '@nestjs/common';
import type { QueryResultRow } from 'pg';
import type { ClanDatabase } from '../../database/clan-transaction.js';
import type { MatchInput, MatchResponse } from './matches.dto.js';

const MATCH = `
  select id, event_id as "eventId", round, position, home_entrant_id as "homeEntrantId",
         away_entrant_id as "awayEntrantId", winner_entrant_id as "winnerEntrantId", best_of as "bestOf",
         home_wins as "homeWins", away_wins as "awayWins", status,
         to_char(scheduled_at at time zone 'UTC', 'YYYY-MM-DD"T"HH24:MI:SS"Z"') as "scheduledAt"
    from match`;

export interface MatchTies {
  /** The bracket says where one of its players comes from, or takes one from it. */
  readonly linked: boolean;
  /** Its winner leads to the match behind it. */
  readonly followed: boolean;
}

@Injectable()
export class MatchesRepository {
  list(db: ClanDatabase, eventId: string, after: string | null, limit: number): Promise<MatchResponse[]> {
    return db.query<MatchResponse>(
      `${MATCH} where event_id = $1 and ($2::uuid is null or id > $2) order by id limit $3`,
      [eventId, after, limit],
    );
  }

  async find(db: ClanDatabase, eventId: string, matchId: string): Promise<MatchResponse | null> {
    const rows = await db.query<MatchResponse>(
      `${MATCH} where event_id = $2 and id = $3 order by clan_id <> $1 limit 1`,
      [db.clanId, eventId, matchId],
    );
    return rows[0] ?? null;
  }

  async lockOwn(db: ClanDatabase, eventId: string, matchId: string): Promise<MatchResponse | null> {
    const rows = await db.query<MatchResponse>(
      `${MATCH} where clan_id = $1 and event_id = $2 and id = $3 for no key update`,
      [db.clanId, eventId, matchId],
    );
    return rows[0] ?? null;
  }

  /** What hangs together with a match: by links of the bracket, and by where it stands, as `eventBracket` reads both. */
  async ties(db: ClanDatabase, eventId: string, matchId: string): Promise<MatchTies> {
    const [row] = await db.query<MatchTies & QueryResultRow>(
      `select coalesce(bool_or(m.home_source is not null or m.away_source is not null
                               or jsonb_build_object('stage', m.stage, 'round', m.round, 'position', m.position)
                                  in (o.home_source - 'from', o.away_source - 'from')), false) as linked,
              coalesce(bool_or(o.stage = m.stage and o.round = m.round + 1 and o.position = (m.position + 1) / 2),
                       false) as followed
         from match m join match o on o.clan_id = m.clan_id and o.event_id = m.event_id
        where m.clan_id = $1 and m.event_id = $2 and m.id = $3`,
      [db.clanId, eventId, matchId],
    );
    return row ?? { linked: false, followed: false };
  }

  async insert(db: ClanDatabase, eventId: string, matchId: string, input: MatchInput): Promise<void> {
    await db.query(
      `insert into match (clan_id, event_id, id, scope_id, round, position, home_entrant_id, away_entrant_id,
                          winner_entrant_id, best_of, home_wins, away_wins, status, scheduled_at)
       select $1, $2, $3, e.scope_id, $4, $5, $6, $7, $8, $9, $10, $11, $12, $13
         from event e where e.clan_id = $1 and e.id = $2`,
      [db.clanId, eventId, matchId, ...valuesOf(input)],
    );
  }

  async update(db: ClanDatabase, eventId: string, matchId: string, input: MatchInput): Promise<void> {
    await db.query(
      `update match set round = $4, position = $5, home_entrant_id = $6, away_entrant_id = $7, winner_entrant_id = $8,
                        best_of = $9, home_wins = $10, away_wins = $11, status = $12, scheduled_at = $13
        where clan_id = $1 and event_id = $2 and id = $3`,
      [db.clanId, eventId, matchId, ...valuesOf(input)],
    );
  }

  async remove(db: ClanDatabase, eventId: string, matchId: string): Promise<void> {
    await db.query(`delete from match where clan_id = $1 and event_id = $2 and id = $3`, [db.clanId, eventId, matchId]);
  }
}

function valuesOf(input: MatchInput): readonly unknown[] {
  return [
    input.round,
    input.position,
    input.homeEntrantId ?? null,
    input.awayEntrantId ?? null,
    input.winnerEntrantId ?? null,
    input.bestOf ?? 1,
    input.homeWins ?? null,
    input.awayWins ?? null,
    input.status ?? 'open',
    input.scheduledAt ?? null,
  ];
}
