import { Injectable } from '@nestjs/common';
import type { ClanDatabase } from '../../database/clan-transaction.js';
import type { EntrantInput, EntrantResponse } from './entrants.dto.js';

const ENTRANT = `
  select n.id, n.event_id as "eventId", n.player_id as "playerId", p.handle, n.seed, n.roster_notes as "rosterNotes",
         n.unit_grades as "unitGrades"
    from entrant n join player p on p.clan_id = n.clan_id and p.id = n.player_id`;

@Injectable()
export class EntrantsRepository {
  list(db: ClanDatabase, eventId: string, after: string | null, limit: number): Promise<EntrantResponse[]> {
    return db.query<EntrantResponse>(
      `${ENTRANT} where n.event_id = $1 and ($2::uuid is null or n.id > $2) order by n.id limit $3`,
      [eventId, after, limit],
    );
  }

  async find(db: ClanDatabase, eventId: string, entrantId: string): Promise<EntrantResponse | null> {
    const rows = await db.query<EntrantResponse>(
      `${ENTRANT} where n.event_id = $2 and n.id = $3 order by n.clan_id <> $1 limit 1`,
      [db.clanId, eventId, entrantId],
    );
    return rows[0] ?? null;
  }

  async lockOwn(db: ClanDatabase, eventId: string, entrantId: string): Promise<EntrantResponse | null> {
    const rows = await db.query<EntrantResponse>(
      `${ENTRANT} where n.clan_id = $1 and n.event_id = $2 and n.id = $3 for no key update of n`,
      [db.clanId, eventId, entrantId],
    );
    return rows[0] ?? null;
  }

  async insert(db: ClanDatabase, eventId: string, entrantId: string, input: EntrantInput): Promise<void> {
    await db.query(
      `insert into entrant (clan_id, event_id, id, scope_id, player_id, seed, roster_notes, unit_grades)
       select $1, $2, $3, e.scope_id, $4, $5, $6, $7 from event e where e.clan_id = $1 and e.id = $2`,
      [db.clanId, eventId, entrantId, ...valuesOf(input)],
    );
  }

  async update(db: ClanDatabase, eventId: string, entrantId: string, input: EntrantInput): Promise<void> {
    await db.query(
      `update entrant set player_id = $4, seed = $5, roster_notes = $6, unit_grades = $7
        where clan_id = $1 and event_id = $2 and id = $3`,
      [db.clanId, eventId, entrantId, ...valuesOf(input)],
    );
  }

  async remove(db: ClanDatabase, eventId: string, entrantId: string): Promise<void> {
    await db.query(`delete from entrant where clan_id = $1 and event_id = $2 and id = $3`, [
      db.clanId,
      eventId,
      entrantId,
    ]);
  }
}

function valuesOf({ playerId, seed, rosterNotes, unitGrades }: EntrantInput): readonly unknown[] {
  return [playerId, seed ?? null, rosterNotes ?? null, JSON.stringify(unitGrades ?? {})];
}
