import { Injectable } from '@nestjs/common';
import type { Note, NoteTerms } from '#domain/coaching/note.js';
import { scopeFor, visibleToColumn, type VisibleTo } from '../../common/visible-to.repository.js';
import type { ClanDatabase } from '../../database/clan-transaction.js';
import type { CoachingPointVersion } from './coaching-points.dto.js';

/** A coaching point with its terms as they are stored. */
export interface CoachingPointRow extends NoteTerms {
  readonly id: string;
  readonly about: string;
  readonly text: string;
  readonly menuCallId: string | null;
  readonly playerId: string | null;
  readonly chartId: string | null;
  readonly playNumber: number | null;
  readonly visibleTo: VisibleTo;
}

export interface WrittenPoint extends CoachingPointRow {
  readonly revision: number;
  readonly writtenBy: string;
  readonly writtenAt: string;
}

export interface PointFilter {
  readonly after: string | null;
  readonly about: string | null;
  readonly playerId: string | null;
  readonly chartId: string | null;
  readonly menuCallId: string | null;
}

/** A point that the whole clan reads, as reports attach it. */
export interface ClanPoint extends Note {
  readonly text: string;
  readonly writtenBy: string;
  readonly writtenAt: string;
}

/** A point as it was at a revision. */
export interface PointVersion extends CoachingPointVersion {
  readonly id: string;
}

/** Who has left is no longer named. */
const WRITER = `case when k.role is not null and k.revoked_at is not null then 'former member' else k.name end as "writtenBy"`;

const AT = `to_char(p.written_at at time zone 'UTC', 'YYYY-MM-DD"T"HH24:MI:SS"Z"') as "writtenAt"`;

const POINT = `
  select p.id, p.about, p.text, p.menu_call_id as "menuCallId", p.call_family as "callFamily", p.concept, p.formation,
         p.front, p.coverage, p.pressure, p.player_id as "playerId", p.chart_id as "chartId",
         p.play_number as "playNumber", ${visibleToColumn('p.scope_id')}, p.revision, ${WRITER}, ${AT}
    from coaching_point p join api_key k on k.clan_id = p.clan_id and k.id = p.written_by`;

@Injectable()
export class CoachingPointsRepository {
  list(db: ClanDatabase, filter: PointFilter, limit: number): Promise<WrittenPoint[]> {
    return db.query<WrittenPoint & Record<string, unknown>>(
      `${POINT}
        where p.clan_id = $1 and ($2::uuid is null or p.id > $2) and ($3::text is null or p.about = $3)
          and ($4::uuid is null or p.player_id = $4) and ($5::uuid is null or p.chart_id = $5)
          and ($6::uuid is null or p.menu_call_id = $6)
        order by p.id limit $7`,
      [db.clanId, filter.after, filter.about, filter.playerId, filter.chartId, filter.menuCallId, limit],
    );
  }

  async find(db: ClanDatabase, id: string): Promise<WrittenPoint | null> {
    const rows = await db.query<WrittenPoint & Record<string, unknown>>(`${POINT} where p.clan_id = $1 and p.id = $2`, [
      db.clanId,
      id,
    ]);
    return rows[0] ?? null;
  }

  async lock(db: ClanDatabase, id: string): Promise<WrittenPoint | null> {
    const rows = await db.query<WrittenPoint & Record<string, unknown>>(
      `${POINT} where p.clan_id = $1 and p.id = $2 for no key update of p`,
      [db.clanId, id],
    );
    return rows[0] ?? null;
  }

  async insert(db: ClanDatabase, row: CoachingPointRow): Promise<void> {
    await db.query(
      `insert into coaching_point (clan_id, id, scope_id, about, text, menu_call_id, call_family, concept, formation, front,
                                   coverage, pressure, player_id, chart_id, play_number, written_by)
       values ($1, $2, $16, $3, $4, $5, $6, $7, $8, $9, $10, $11, $12, $13, $14, $15)`,
      [db.clanId, ...valuesOf(row), db.keyId, await scopeFor(db, row.visibleTo)],
    );
  }

  /** Keeps what it said before, and signs what it says now. */
  async update(db: ClanDatabase, row: CoachingPointRow): Promise<void> {
    await db.query(
      `insert into coaching_point_version (clan_id, coaching_point_id, revision, scope_id, text, written_by, written_at)
       select clan_id, id, revision, scope_id, text, written_by, written_at from coaching_point
        where clan_id = $1 and id = $2`,
      [db.clanId, row.id],
    );
    await db.query(
      `update coaching_point
          set about = $3, text = $4, menu_call_id = $5, call_family = $6, concept = $7, formation = $8, front = $9,
              coverage = $10, pressure = $11, player_id = $12, chart_id = $13, play_number = $14, written_by = $15,
              written_at = now(), revision = revision + 1, scope_id = $16
        where clan_id = $1 and id = $2`,
      [db.clanId, ...valuesOf(row), db.keyId, await scopeFor(db, row.visibleTo)],
    );
  }

  async remove(db: ClanDatabase, id: string): Promise<void> {
    await db.query(`delete from coaching_point where clan_id = $1 and id = $2`, [db.clanId, id]);
  }

  /** What it said before, the newest first. */
  versions(db: ClanDatabase, id: string): Promise<CoachingPointVersion[]> {
    return db.query<CoachingPointVersion & Record<string, unknown>>(
      `select p.revision, p.text, ${WRITER}, ${AT}
         from coaching_point_version p join api_key k on k.clan_id = p.clan_id and k.id = p.written_by
        where p.clan_id = $1 and p.coaching_point_id = $2 order by p.revision desc limit 200`,
      [db.clanId, id],
    );
  }

  /** What the whole clan reads, the newest first; what is for one person alone is left out, for that person too. */
  ofClan(db: ClanDatabase, most: number): Promise<ClanPoint[]> {
    return db.query<ClanPoint & Record<string, unknown>>(
      `select p.id, p.revision, p.about, p.text, p.menu_call_id as "menuCallId", p.call_family as "callFamily", p.concept,
              p.formation, p.front, p.coverage, p.pressure, coalesce(o.linked_player_id, o.id) as "playerId",
              p.chart_id as "chartId", p.play_number as "playNumber", ${WRITER}, ${AT}
         from coaching_point p
         join api_key k on k.clan_id = p.clan_id and k.id = p.written_by
         join scope s on s.clan_id = p.clan_id and s.id = p.scope_id and s.kind = 'private'
         left join player o on o.clan_id = p.clan_id and o.id = p.player_id
        where p.clan_id = $1
        order by p.written_at desc, p.id desc limit $2`,
      [db.clanId, most],
    );
  }

  /** Those points at every revision that is kept, as far as the reader may still read them. */
  everyVersion(db: ClanDatabase, ids: readonly string[]): Promise<PointVersion[]> {
    return db.query<PointVersion & Record<string, unknown>>(
      `select p.id, p.revision, p.text, ${WRITER}, ${AT}
         from (select clan_id, id, revision, text, written_by, written_at from coaching_point
               union all
               select clan_id, coaching_point_id, revision, text, written_by, written_at from coaching_point_version) p
         join api_key k on k.clan_id = p.clan_id and k.id = p.written_by
        where p.clan_id = $1 and p.id = any($2::uuid[])`,
      [db.clanId, ids],
    );
  }

  async seesPlay(db: ClanDatabase, chartId: string, playNumber: number): Promise<boolean> {
    const rows = await db.query(`select play_number from play where chart_id = $1 and play_number = $2 limit 1`, [
      chartId,
      playNumber,
    ]);
    return rows.length > 0;
  }
}

function valuesOf(row: CoachingPointRow): readonly unknown[] {
  const { id, about, text, menuCallId, callFamily, concept, formation } = row;
  const { front, coverage, pressure, playerId, chartId, playNumber } = row;
  return [
    ...[id, about, text, menuCallId, callFamily, concept, formation],
    ...[front, coverage, pressure, playerId, chartId, playNumber],
  ];
}
