import { Injectable } from '@nestjs/common';
import { PACK_FORMAT, packPlays, packWithPlay } from '#domain/charting/packed-plays.js';
import { columnsFromPlays, type ChartedPlay } from '#domain/charting/play-columns.js';
import { VALUE_COLUMNS, valuesOfRow, type PlayColumnsRow } from '../../common/play-values.js';
import type { ClanDatabase } from '../../database/clan-transaction.js';
import type { Querying } from '../../database/querying.js';

export interface ChartKey {
  readonly clanId: string;
  readonly chartId: string;
  readonly gameId: string;
}

/** A packed copy and how many plays it holds. */
export interface Packed {
  readonly plays: number;
  readonly bytes: Buffer;
}

type PlayRow = PlayColumnsRow & {
  readonly playNumber: number;
  readonly orderInGame: number;
  readonly offenseIsHome: boolean;
};

const COLUMNS = VALUE_COLUMNS.map((column) => `p.${column}`).join(', ');

const WRITE = `
  insert into chart_pack (clan_id, chart_id, scope_id, format, revision, plays, bytes)
  select clan_id, id, scope_id, $3, revision, plays, $5 from raised
      on conflict (clan_id, chart_id) do update
     set format = excluded.format, revision = excluded.revision, plays = excluded.plays, bytes = excluded.bytes`;

const RAISED = `
  raised as (
    update chart set revision = revision + 1, plays = $4 where clan_id = $1 and id = $2
    returning clan_id, id, scope_id, revision, plays)`;

/** The packed copy of a chart's plays: made of its rows here and nowhere else, whoever changed them. */
@Injectable()
export class ChartPacksRepository {
  /** Raises the chart's revision and writes its plays, as they are now, as its packed copy. */
  async raise(db: Querying, chart: ChartKey): Promise<void> {
    const { plays, bytes } = await this.pack(db, chart);
    await db.query(`with ${RAISED} ${WRITE}`, [chart.clanId, chart.chartId, PACK_FORMAT, plays, bytes]);
  }

  /** The same for one play that was added to the copy as it was before, and the scope's revision: last of all. */
  async raiseByPlay(db: Pick<ClanDatabase, 'last'>, chart: ChartKey, before: Packed, play: ChartedPlay): Promise<void> {
    const bytes = Buffer.from(packWithPlay(before.bytes, chart, play));
    await db.last('select app.raise_chart($1, $2, $3, $4)', [chart.chartId, PACK_FORMAT, before.plays + 1, bytes]);
  }

  /** Writes the packed copy of a chart that has none, or a wrong one; the revision stays. */
  async rebuild(db: Querying, chart: ChartKey): Promise<void> {
    const { plays, bytes } = await this.pack(db, chart);
    await db.query(
      `insert into chart_pack (clan_id, chart_id, scope_id, format, revision, plays, bytes)
       select c.clan_id, c.id, c.scope_id, $3, c.revision, $4, $5 from chart c where c.clan_id = $1 and c.id = $2
           on conflict (clan_id, chart_id) do update
          set format = excluded.format, revision = excluded.revision, plays = excluded.plays, bytes = excluded.bytes`,
      [chart.clanId, chart.chartId, PACK_FORMAT, plays, bytes],
    );
  }

  /** A page of all charts there are, for the owner. */
  chartsAfter(db: Querying, after: ChartKey | null, limit: number): Promise<ChartKey[]> {
    return db.query<ChartKey & Record<string, unknown>>(
      `select clan_id as "clanId", id as "chartId", game_id as "gameId" from chart
        where $1::uuid is null or (clan_id, id) > ($1, $2::uuid) order by clan_id, id limit $3`,
      [after?.clanId ?? null, after?.chartId ?? null, limit],
    );
  }

  private async pack(db: Querying, chart: ChartKey): Promise<Packed> {
    const rows = await db.query<PlayRow>(
      `select p.play_number as "playNumber", p.order_in_game as "orderInGame",
              p.offense_player_id = g.home_player_id as "offenseIsHome", ${COLUMNS}
         from play p join game g on g.clan_id = p.clan_id and g.id = p.game_id
        where p.clan_id = $1 and p.chart_id = $2
        order by p.order_in_game, p.play_number`,
      [chart.clanId, chart.chartId],
    );
    const plays = rows.map((row): ChartedPlay => ({
      playNumber: row.playNumber,
      orderInGame: row.orderInGame,
      offenseIsHome: row.offenseIsHome,
      values: valuesOfRow(row),
    }));
    return { plays: plays.length, bytes: Buffer.from(packPlays(columnsFromPlays(chart, plays))) };
  }
}
