import { Injectable } from '@nestjs/common';
import type { ClanDatabase } from '../../database/clan-transaction.js';

export interface EventRow {
  readonly id: string;
  readonly reference: string;
  readonly name: string;
  readonly startsOn: string | null;
  readonly status: string;
  readonly rulesVersion: string | null;
  /** Whether it is the reader's clan's own record. */
  readonly own: boolean;
}

export interface MatchRow {
  readonly round: number;
  readonly position: number;
  readonly home: string | null;
  readonly away: string | null;
  readonly homePlayerId: string | null;
  readonly awayPlayerId: string | null;
  readonly winnerPlayerId: string | null;
  readonly status: string;
}

const EVENT = `select id, reference, name, to_char(starts_on, 'YYYY-MM-DD') as "startsOn", status,
                      rules_version as "rulesVersion", clan_id = (select app.clan()) as own from event`;

@Injectable()
export class EventsRepository {
  /** Events that the reader may see, the clan's own and others', by id. */
  list(db: ClanDatabase, after: string | null, limit: number): Promise<EventRow[]> {
    return db.query<EventRow>(`${EVENT} where $1::uuid is null or id > $1 order by id limit $2`, [after, limit]);
  }

  async find(db: ClanDatabase, eventId: string): Promise<EventRow | null> {
    const rows = await db.query<EventRow>(`${EVENT} where id = $2 order by clan_id <> $1 limit 1`, [
      db.clanId,
      eventId,
    ]);
    return rows[0] ?? null;
  }

  /** From the next statement of anybody on, every clan reads the event and all that hangs on it. */
  async publish(db: ClanDatabase, eventId: string): Promise<void> {
    await db.query(`select app.publish_event($1)`, [eventId]);
  }

  /** Undoes `publish`; an event that is not published stays as it is. */
  async withdraw(db: ClanDatabase, eventId: string): Promise<void> {
    await db.query(
      `select app.withdraw_event(e.id) from event e join scope s on s.id = e.scope_id
        where e.clan_id = $1 and e.id = $2 and s.kind = 'event'`,
      [db.clanId, eventId],
    );
  }

  /** Matches in the order of the bracket, with the players as one person each. */
  matches(db: ClanDatabase, eventId: string): Promise<MatchRow[]> {
    return db.query<MatchRow>(
      `select m.round, m.position, m.status, hp.handle as home, ap.handle as away,
              coalesce(hp.linked_player_id, hp.id) as "homePlayerId",
              coalesce(ap.linked_player_id, ap.id) as "awayPlayerId",
              case m.winner_entrant_id when m.home_entrant_id then coalesce(hp.linked_player_id, hp.id)
                                       when m.away_entrant_id then coalesce(ap.linked_player_id, ap.id) end
                as "winnerPlayerId"
         from match m
         left join entrant he on he.clan_id = m.clan_id and he.id = m.home_entrant_id
         left join player hp on hp.clan_id = he.clan_id and hp.id = he.player_id
         left join entrant ae on ae.clan_id = m.clan_id and ae.id = m.away_entrant_id
         left join player ap on ap.clan_id = ae.clan_id and ap.id = ae.player_id
        where m.event_id = $1
        order by m.round, m.position`,
      [eventId],
    );
  }
}
