import { Injectable } from '@nestjs/common';
import type { FilmScope } from '#domain/charting/film-scope.js';
import { PACK_FORMAT } from '#domain/charting/packed-plays.js';
import type { NumberedPlay } from '#domain/charting/reconcile-numbers.js';
import type { ClanDatabase } from '../../database/clan-transaction.js';

/** A chart of a game with its plays as packed columns. */
export interface StoredChart {
  readonly chartId: string;
  readonly gameId: string;
  readonly kind: 'charted' | 'reconciled';
  readonly reference: string;
  readonly chartedBy: string | null;
  /** ISO 8601 in UTC. */
  readonly chartedAt: string | null;
  readonly filmScope: FilmScope;
  readonly revision: number;
  readonly contentHash: Buffer | null;
}

export interface GameOfCharts {
  readonly clanId: string;
  readonly id: string;
  readonly scopeId: number;
  readonly homePlayerId: string;
  readonly awayPlayerId: string;
}

/** What a row of a play says beyond the fields. */
export interface PlayExtras {
  readonly chartId: string;
  readonly playNumber: number;
  readonly note: string | null;
  readonly adjustmentDetails: unknown;
  readonly knownBy: Readonly<Record<string, unknown>> | null;
}

export interface StoredReconciliation {
  readonly lastPlayNumber: number;
  readonly plays: readonly NumberedPlay[];
}

export type PlayRecord = Readonly<Record<string, unknown>>;

/** What is written of a reconciled chart. */
export interface ReconciledChart {
  readonly chartId: string;
  readonly chartedAt: string | null;
  readonly filmScope: FilmScope;
  readonly filmScopeRank: number;
  readonly revision: number;
  readonly contentHash: Buffer;
  readonly plays: readonly PlayRecord[];
  readonly pack: Buffer;
}

/** No chart that a person names can have this reference: it has brackets. */
const REFERENCE = '(reconciled)';

const GAME = `select g.clan_id as "clanId", g.id, g.scope_id as "scopeId", g.home_player_id as "homePlayerId",
                     g.away_player_id as "awayPlayerId"`;

@Injectable()
export class ReconciliationRepository {
  /**
   * Of these own games, those with several charts, and the reconciled charts of those that have no longer. From here on
   * nobody else writes what counts of them until the transaction ends; without that, two charts that come in at once would
   * not see each other. The lock lets foreign keys to the game pass, since a transaction may have charted it already.
   */
  async lockGames(
    db: ClanDatabase,
    gameIds: readonly string[],
  ): Promise<{ readonly several: readonly GameOfCharts[]; readonly orphans: readonly string[] }> {
    await db.query(`select from game where clan_id = $1 and id = any($2::uuid[]) order by id for no key update`, [
      db.clanId,
      gameIds,
    ]);
    const games = await db.query<GameOfCharts & { charted: number; reconciledId: string | null }>(
      `${GAME}, n.charted, n."reconciledId"
         from (select c.game_id, count(*) filter (where c.kind = 'charted')::int as charted,
                      (array_agg(c.id) filter (where c.kind = 'reconciled'))[1] as "reconciledId"
                 from chart c
                where c.clan_id = $1 and c.game_id = any($2::uuid[]) and c.kind <> 'own call log'
                group by c.game_id having count(*) > 1 or bool_or(c.kind = 'reconciled')) n
         join game g on g.clan_id = $1 and g.id = n.game_id
        order by g.id`,
      [db.clanId, gameIds],
    );
    return {
      several: games.filter(({ charted }) => charted > 1),
      orphans: games.flatMap(({ charted, reconciledId }) =>
        charted > 1 || reconciledId === null ? [] : [reconciledId],
      ),
    };
  }

  /** The game of that id that the reader sees, its own record before others'. */
  async visibleGame(db: ClanDatabase, gameId: string): Promise<GameOfCharts | null> {
    const rows = await db.query<GameOfCharts>(
      `${GAME} from game g where g.id = $2 order by g.clan_id <> $1, g.clan_id limit 1`,
      [db.clanId, gameId],
    );
    return rows[0] ?? null;
  }

  charts(db: ClanDatabase, game: Pick<GameOfCharts, 'clanId' | 'id'>): Promise<StoredChart[]> {
    return db.query(
      `select c.id as "chartId", c.game_id as "gameId", c.kind, c.reference, c.charted_by as "chartedBy",
              to_char(c.charted_at at time zone 'UTC', 'YYYY-MM-DD"T"HH24:MI:SS.US"Z"') as "chartedAt",
              c.film_scope as "filmScope", c.revision, c.content_hash as "contentHash"
         from chart c
        where c.clan_id = $1 and c.game_id = $2 and c.kind <> 'own call log' order by c.id`,
      [game.clanId, game.id],
    );
  }

  async packs(db: ClanDatabase, clanId: string, chartIds: readonly string[]): Promise<ReadonlyMap<string, Buffer>> {
    const rows = await db.query<{ chartId: string; bytes: Buffer }>(
      `select chart_id as "chartId", bytes from chart_pack where clan_id = $1 and chart_id = any($2::uuid[])`,
      [clanId, chartIds],
    );
    return new Map(rows.map(({ chartId, bytes }) => [chartId, bytes]));
  }

  extras(db: ClanDatabase, clanId: string, chartIds: readonly string[]): Promise<PlayExtras[]> {
    return db.query(
      `select chart_id as "chartId", play_number as "playNumber", note, adjustment_details as "adjustmentDetails",
              known_by as "knownBy"
         from play
        where clan_id = $1 and chart_id = any($2::uuid[])
          and (note is not null or adjustment_details is not null or known_by is not null)`,
      [clanId, chartIds],
    );
  }

  async stored(db: ClanDatabase, clanId: string, chartId: string): Promise<StoredReconciliation | null> {
    const rows = await db.query<StoredReconciliation>(
      `select last_play_number as "lastPlayNumber", plays from reconciliation where clan_id = $1 and chart_id = $2`,
      [clanId, chartId],
    );
    return rows[0] ?? null;
  }

  async remove(db: ClanDatabase, chartId: string): Promise<void> {
    await db.query(`delete from chart where clan_id = $1 and id = $2`, [db.clanId, chartId]);
  }

  /** Writes the chart with all its plays anew; `revision` 1 makes it. */
  async write(db: ClanDatabase, game: GameOfCharts, chart: ReconciledChart): Promise<void> {
    await db.query(
      `insert into chart (clan_id, id, scope_id, game_id, reference, kind, charted_at, film_scope, film_scope_rank,
                          revision, plays, content_hash)
       values ($1, $2, $3, $4, '${REFERENCE}', 'reconciled', $5, $6, $7, $8, $9, $10)
       on conflict (clan_id, id) do update
          set charted_at = excluded.charted_at, film_scope = excluded.film_scope,
              film_scope_rank = excluded.film_scope_rank, revision = excluded.revision, plays = excluded.plays,
              content_hash = excluded.content_hash`,
      [
        db.clanId,
        chart.chartId,
        game.scopeId,
        game.id,
        chart.chartedAt,
        JSON.stringify(chart.filmScope),
        chart.filmScopeRank,
        chart.revision,
        chart.plays.length,
        chart.contentHash,
      ],
    );
    await db.query(`delete from play where clan_id = $1 and chart_id = $2`, [db.clanId, chart.chartId]);
    await this.insertPlays(db, game, chart);
    await db.query(
      `insert into chart_pack (clan_id, chart_id, scope_id, format, revision, plays, bytes)
       values ($1, $2, $3, $4, $5, $6, $7)
       on conflict (clan_id, chart_id) do update
          set format = excluded.format, revision = excluded.revision, plays = excluded.plays, bytes = excluded.bytes`,
      [db.clanId, chart.chartId, game.scopeId, PACK_FORMAT, chart.revision, chart.plays.length, chart.pack],
    );
  }

  private async insertPlays(db: ClanDatabase, game: GameOfCharts, { chartId, plays }: ReconciledChart): Promise<void> {
    const [first] = plays;
    if (first === undefined) return;
    const columns = Object.keys(first);
    await db.query(
      `insert into play (clan_id, scope_id, game_id, chart_id, ${columns.join(', ')})
       select $1, $2, $3, $4, ${columns.map((column) => `r.${column}`).join(', ')}
         from jsonb_populate_recordset(null::play, $5::jsonb) r`,
      [db.clanId, game.scopeId, game.id, chartId, JSON.stringify(plays)],
    );
  }

  async remember(
    db: ClanDatabase,
    scopeId: number,
    chartId: string,
    { lastPlayNumber, plays }: StoredReconciliation,
  ): Promise<void> {
    await db.query(
      `insert into reconciliation (clan_id, chart_id, scope_id, last_play_number, plays) values ($1, $2, $3, $4, $5)
       on conflict (clan_id, chart_id) do update
          set last_play_number = excluded.last_play_number, plays = excluded.plays`,
      [db.clanId, chartId, scopeId, lastPlayNumber, JSON.stringify(plays)],
    );
  }
}
