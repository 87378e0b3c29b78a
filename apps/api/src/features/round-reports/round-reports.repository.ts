import { Injectable } from '@nestjs/common';
import type { RoundReport } from '#domain/reports/round-report-shape.js';
import { scopeFor, type VisibleTo } from '../../common/visible-to.repository.js';
import type { ClanDatabase } from '../../database/clan-transaction.js';

export interface NewRoundReport {
  readonly id: string;
  readonly eventId: string;
  readonly round: number | null;
  readonly playerId: string | null;
  readonly opponentId: string;
  readonly visibleTo: VisibleTo;
  readonly report: RoundReport;
}

/** What the ids of a report stand for, as far as the reader may know. */
export interface NameRow {
  readonly id: string;
  readonly name: string;
}

export interface ChartRow {
  readonly id: string;
  readonly revision: number;
  readonly url: string | null;
  readonly offsetSeconds: number | null;
}

export interface PlaySecondRow {
  readonly chartId: string;
  readonly playNumber: number;
  /** Of the charted film, where the line-up or else the snap is. */
  readonly second: number;
}

@Injectable()
export class RoundReportsRepository {
  async insert(db: ClanDatabase, row: NewRoundReport): Promise<void> {
    const { report } = row;
    await db.query(
      `insert into round_report (clan_id, id, scope_id, event_id, round, player_id, opponent_player_id, created_at,
                                 settings, seed, code_version, inputs, body)
       values ($1, $2, $13, $3, $4, $5, $6, $7, $8, $9, $10, $11, $12)`,
      [
        db.clanId,
        row.id,
        row.eventId,
        row.round,
        row.playerId,
        row.opponentId,
        report.madeAt,
        JSON.stringify(report.settings),
        report.seed,
        report.codeVersion,
        JSON.stringify(report.sample.charts),
        JSON.stringify(report),
        await scopeFor(db, row.visibleTo),
      ],
    );
  }

  async find(db: ClanDatabase, reportId: string): Promise<RoundReport | null> {
    const rows = await db.query<{ body: RoundReport }>(
      `select body from round_report where id = $2 order by clan_id <> $1 limit 1`,
      [db.clanId, reportId],
    );
    return rows[0]?.body ?? null;
  }

  /** Titles of games: who played whom, where and when. */
  games(db: ClanDatabase, gameIds: readonly string[]): Promise<NameRow[]> {
    return db.query<NameRow>(
      `select g.id, h.handle || ' - ' || a.handle || coalesce(', ' || e.name, '')
                    || coalesce(', ' || to_char(g.played_at at time zone 'UTC', 'YYYY-MM-DD'), '') as name
         from game g
         join player h on h.clan_id = g.clan_id and h.id = g.home_player_id
         join player a on a.clan_id = g.clan_id and a.id = g.away_player_id
         left join event e on e.clan_id = g.clan_id and e.id = g.event_id
        where g.id = any($1::uuid[])`,
      [gameIds],
    );
  }

  /** Charts that the reader may see, as they stand now, with one video each: the neutral view first. */
  charts(db: ClanDatabase, chartIds: readonly string[]): Promise<ChartRow[]> {
    return db.query<ChartRow>(
      `select distinct on (c.id) c.id, c.revision, v.url, v.offset_seconds as "offsetSeconds"
         from chart c left join game_video v on v.clan_id = c.clan_id and v.game_id = c.game_id
        where c.id = any($1::uuid[])
        order by c.id, array_position(array['neutral', 'own view', 'opponent view', 'highlights'], v.kind), v.id`,
      [chartIds],
    );
  }

  /** Where the plays of these charts are on film. */
  playSeconds(db: ClanDatabase, chartIds: readonly string[]): Promise<PlaySecondRow[]> {
    return db.query<PlaySecondRow>(
      `select chart_id as "chartId", play_number as "playNumber", coalesce(line_up_second, snap_second) as second
         from play
        where chart_id = any($1::uuid[]) and coalesce(line_up_second, snap_second) is not null`,
      [chartIds],
    );
  }
}
