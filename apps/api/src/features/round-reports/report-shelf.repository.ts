import { Injectable } from '@nestjs/common';
import { visibleToColumn } from '../../common/visible-to.repository.js';
import type { ClanDatabase } from '../../database/clan-transaction.js';
import type { ReportSummary } from './report-shelf.dto.js';

const SUMMARY = `
  select id, event_id as "eventId", round, player_id as "playerId", opponent_player_id as "opponentId",
         to_char(created_at at time zone 'UTC', 'YYYY-MM-DD"T"HH24:MI:SS"Z"') as "madeAt",
         code_version as "codeVersion", ${visibleToColumn()}
    from round_report`;

export interface ReportFilter {
  readonly after: string | null;
  readonly opponentId: string | null;
  readonly eventId: string | null;
}

@Injectable()
export class ReportShelfRepository {
  list(db: ClanDatabase, { after, opponentId, eventId }: ReportFilter, limit: number): Promise<ReportSummary[]> {
    return db.query<ReportSummary & Record<string, unknown>>(
      `${SUMMARY}
        where ($1::uuid is null or id > $1) and ($2::uuid is null or opponent_player_id = $2)
          and ($3::uuid is null or event_id = $3)
        order by id limit $4`,
      [after, opponentId, eventId, limit],
    );
  }

  newest(db: ClanDatabase, limit: number): Promise<ReportSummary[]> {
    return db.query<ReportSummary & Record<string, unknown>>(`${SUMMARY} order by id desc limit $1`, [limit]);
  }

  async find(db: ClanDatabase, reportId: string): Promise<ReportSummary | null> {
    const rows = await db.query<ReportSummary & Record<string, unknown>>(`${SUMMARY} where clan_id = $1 and id = $2`, [
      db.clanId,
      reportId,
    ]);
    return rows[0] ?? null;
  }

  async remove(db: ClanDatabase, reportId: string): Promise<void> {
    await db.query(`delete from round_report where clan_id = $1 and id = $2`, [db.clanId, reportId]);
  }
}
