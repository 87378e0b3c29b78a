import { Injectable } from '@nestjs/common';
import type { PooledReport } from '#domain/report-card/pooled-calibration.js';
import type { RoundReport } from '#domain/reports/round-report-shape.js';
import type { ClanDatabase } from '../../database/clan-transaction.js';

export interface FrozenReport {
  readonly report: RoundReport;
  /** Identity of the player for whom it was made; null where it was asked for by name alone. */
  readonly forPlayer: string | null;
}

/** A clan that makes a report a day has these for half a year. */
const MOST_POOLED = 200;

@Injectable()
export class ReportCardRepository {
  async find(db: ClanDatabase, reportId: string): Promise<FrozenReport | null> {
    const rows = await db.query<{ report: RoundReport; forPlayer: string | null }>(
      `select r.body as report, coalesce(p.linked_player_id, p.id) as "forPlayer"
         from round_report r left join player p on p.clan_id = r.clan_id and p.id = r.player_id
        where r.id = $2 order by r.clan_id <> $1 limit 1`,
      [db.clanId, reportId],
    );
    return rows[0] ?? null;
  }

  /** The clan's reports that keep their probabilities, the newest first, without what a card does not read. */
  pooled(db: ClanDatabase): Promise<PooledReport[]> {
    return db.query<PooledReport & Record<string, unknown>>(
      `select r.body->>'playerId' as "playerId", r.body->>'eventId' as "eventId", r.body->>'madeAt' as "madeAt",
              coalesce(r.body->>'asOf', left(r.body->>'madeAt', 10)) as "asOf",
              coalesce(p.linked_player_id, p.id) as "forPlayer",
              r.body->'sample'->'charts' as evidence,
              jsonb_path_query_array(r.body, '$.predicted[*] ? (@.dimension == "called")') as predicted,
              case when r.body ? 'forecast'
                   then jsonb_path_query_array(r.body, '$.forecast[*] ? (@.dimension == "called")') end as forecast
         from round_report r left join player p on p.clan_id = r.clan_id and p.id = r.player_id
        where r.clan_id = $1 and r.body ? 'predicted'
        order by r.created_at desc, r.id desc limit $2`,
      [db.clanId, MOST_POOLED],
    );
  }
}
