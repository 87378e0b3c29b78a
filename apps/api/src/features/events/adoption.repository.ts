import { Injectable } from '@nestjs/common';
import type { ClanDatabase } from '../../database/clan-transaction.js';

export interface Adoption {
  /** The public event. */
  readonly sourceId: string;
  readonly eventId: string;
  readonly reference: string;
}

/**
 * Copies a public event as rows of one's own: the event, its players (each linked to the public record, so that profiles
 * still see one person), entrants and matches. Nothing refers to the source by a key, so its withdrawal takes nothing away.
 */
@Injectable()
export class AdoptionRepository {
  /** The clan's own copy of an event, if it made one. */
  async ownCopy(db: ClanDatabase, sourceId: string): Promise<string | null> {
    const rows = await db.query<{ id: string }>(`select id from event where clan_id = $1 and source_id = $2`, [
      db.clanId,
      sourceId,
    ]);
    return rows[0]?.id ?? null;
  }

  /** References of the clan's own events that begin with this one. */
  async referencesLike(db: ClanDatabase, reference: string): Promise<string[]> {
    const rows = await db.query<{ reference: string }>(
      `select reference from event where clan_id = $1 and left(reference, length($2)) = $2`,
      [db.clanId, reference],
    );
    return rows.map((row) => row.reference);
  }

  async copy(db: ClanDatabase, { sourceId, eventId, reference }: Adoption): Promise<void> {
    await db.query(
      `insert into event (clan_id, id, scope_id, reference, name, starts_on, ends_on, rules_version, status, structure,
                          grade_scale, source_id)
       select $1, $3, s.id, $4, e.name, e.starts_on, e.ends_on, e.rules_version, e.status, e.structure, e.grade_scale, e.id
         from event e, scope s where e.id = $2 and e.clan_id <> $1 and s.clan_id = $1 and s.kind = 'private'`,
      [db.clanId, sourceId, eventId, reference],
    );
    // A handle that the clan gave to somebody else already is told apart by the end of the public record's id.
    await db.query(
      `insert into player (clan_id, id, scope_id, handle, normalised_handle, linked_player_id, source_id)
       select $1, gen_random_uuid(), s.id, p.handle || t.suffix, p.normalised_handle || t.suffix,
              coalesce(p.linked_player_id, p.id), p.id
         from entrant n
         join player p on p.clan_id = n.clan_id and p.id = n.player_id
         cross join (select id from scope where clan_id = $1 and kind = 'private') s
         cross join lateral (
           select case when exists (select from player o where o.clan_id = $1 and o.normalised_handle = p.normalised_handle
                                    union all
                                    select from player_alias a where a.clan_id = $1 and a.normalised_alias = p.normalised_handle)
                       then ' ' || right(p.id::text, 4) else '' end as suffix) t
        where n.event_id = $2 and n.clan_id <> $1 and not exists (
          select from player o where o.clan_id = $1
             and (o.source_id = p.id or coalesce(o.linked_player_id, o.id) = coalesce(p.linked_player_id, p.id)))`,
      [db.clanId, sourceId],
    );
    await db.query(
      `insert into entrant (clan_id, id, scope_id, event_id, player_id, seed, roster_notes, unit_grades)
       select $1, gen_random_uuid(), e.scope_id, e.id, o.id, n.seed, n.roster_notes, n.unit_grades
         from entrant n
         join player p on p.clan_id = n.clan_id and p.id = n.player_id
         join event e on e.clan_id = $1 and e.id = $3
         cross join lateral (
           select o.id from player o where o.clan_id = $1
              and (o.source_id = p.id or coalesce(o.linked_player_id, o.id) = coalesce(p.linked_player_id, p.id))
            order by o.source_id is distinct from p.id, o.id limit 1) o
        where n.event_id = $2 and n.clan_id <> $1
           on conflict do nothing`,
      [db.clanId, sourceId, eventId],
    );
    await db.query(
      `with own as (
         select n.id as source, o.id
           from entrant n
           join player p on p.clan_id = n.clan_id and p.id = n.player_id
           join player q on q.clan_id = $1
                and (q.source_id = p.id or coalesce(q.linked_player_id, q.id) = coalesce(p.linked_player_id, p.id))
           join entrant o on o.clan_id = $1 and o.event_id = $3 and o.player_id = q.id
          where n.event_id = $2 and n.clan_id <> $1)
       insert into match (clan_id, id, scope_id, event_id, round, position, home_entrant_id, away_entrant_id,
                          winner_entrant_id, best_of, home_wins, away_wins, status, scheduled_at, stage, home_source,
                          away_source, decider)
       select $1, gen_random_uuid(), e.scope_id, e.id, m.round, m.position, h.id, a.id, w.id, m.best_of, m.home_wins,
              m.away_wins, m.status, m.scheduled_at, m.stage, m.home_source, m.away_source, m.decider
         from match m
         join event e on e.clan_id = $1 and e.id = $3
         left join own h on h.source = m.home_entrant_id
         left join own a on a.source = m.away_entrant_id
         left join own w on w.source = m.winner_entrant_id
        where m.event_id = $2 and m.clan_id <> $1`,
      [db.clanId, sourceId, eventId],
    );
  }
}
