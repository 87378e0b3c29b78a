import type { Writable } from 'node:stream';
import { Injectable } from '@nestjs/common';
import { PACK_FORMAT } from '#domain/charting/packed-plays.js';
import type { ClanDatabase } from '../../database/clan-transaction.js';
import {
  matchKey,
  type ImportPlan,
  type KnownChart,
  type KnownGame,
  type KnownNames,
  type NewRows,
} from './import-plan.js';
import { PLAY_COLUMNS } from './play-rows.js';

/** Packs go in by the hundred: few enough statements, and none of them large. */
const PACKS_A_STATEMENT = 100;

/** A large file takes longer than any request may that only reads. */
const LONGEST_IMPORT = '10min';

@Injectable()
export class ImportsRepository {
  /** Reference of an own game; null when the clan has none of that id. */
  async gameReference(db: ClanDatabase, gameId: string): Promise<string | null> {
    const rows = await db.query<{ reference: string }>(`select reference from game where clan_id = $1 and id = $2`, [
      db.clanId,
      gameId,
    ]);
    return rows[0]?.reference ?? null;
  }

  /** Every name by which a file may call what the clan has already. */
  async knownNames(db: ClanDatabase): Promise<KnownNames> {
    const scopes = await db.query<{ id: number }>(`select id from scope where clan_id = $1 and kind = 'private'`, [
      db.clanId,
    ]);
    const players = await db.query<{ name: string; id: string }>(
      `select normalised_handle as name, id from player where clan_id = $1
        union all
       select normalised_alias, player_id from player_alias where clan_id = $1`,
      [db.clanId],
    );
    const events = await db.query<{ reference: string; id: string; scopeId: number }>(
      `select reference, id, scope_id as "scopeId" from event where clan_id = $1`,
      [db.clanId],
    );
    const entrants = await db.query<{ eventId: string; playerId: string; id: string }>(
      `select event_id as "eventId", player_id as "playerId", id from entrant where clan_id = $1`,
      [db.clanId],
    );
    const matches = await db.query<{ eventId: string; round: number; position: number; id: string }>(
      `select event_id as "eventId", round, position, id from match where clan_id = $1 and stage = 'main'`,
      [db.clanId],
    );
    const games = await db.query<KnownGame & { reference: string }>(
      `select reference, id, scope_id as "scopeId", home_player_id as "homePlayerId", away_player_id as "awayPlayerId"
         from game where clan_id = $1`,
      [db.clanId],
    );
    const charts = await db.query<KnownChart & { gameId: string; reference: string }>(
      `select game_id as "gameId", reference, id, revision, encode(content_hash, 'hex') as "contentHash"
         from chart where clan_id = $1 and kind <> 'reconciled'`,
      [db.clanId],
    );
    const menuCalls = await db.query<{ side: string; name: string; id: string }>(
      `select side, name, id from menu_call where clan_id = $1`,
      [db.clanId],
    );
    const ownCalls = await db.query<{ key: string }>(
      `select game_id || ' ' || order_in_game || ' ' || side as key from own_call where clan_id = $1`,
      [db.clanId],
    );
    return {
      clanId: db.clanId,
      privateScopeId: scopes[0]?.id ?? 0,
      players: new Map(players.map(({ name, id }) => [name, id])),
      events: new Map(events.map(({ reference, id, scopeId }) => [reference, { id, scopeId }])),
      entrants: new Map(entrants.map(({ eventId, playerId, id }) => [`${eventId} ${playerId}`, id])),
      matches: new Map(matches.map(({ eventId, round, position, id }) => [matchKey(eventId, round, position), id])),
      games: new Map(games.map(({ reference, ...game }) => [reference, game])),
      charts: new Map(charts.map(({ gameId, reference, ...chart }) => [`${gameId} ${reference}`, chart])),
      menuCalls: new Map(menuCalls.map(({ side, name, id }) => [`${side} ${name}`, id])),
      ownCalls: new Set(ownCalls.map(({ key }) => key)),
    };
  }

  /**
   * Where the rows of plays go while the file is being read. Row-level security refuses COPY into the table itself, so
   * they wait in a temporary one until `write`.
   */
  async playsInWaiting(db: ClanDatabase): Promise<Writable> {
    const columns = PLAY_COLUMNS.join(', ');
    await db.query(`set local statement_timeout = '${LONGEST_IMPORT}'`);
    await db.query(`create temporary table play_in_waiting on commit drop as select ${columns} from play with no data`);
    return db.copyFrom(`copy play_in_waiting (${columns}) from stdin`);
  }

  /** Lets the planner know of rows that have come in; in a transaction of its own, since it keeps others from the same. */
  async analyzeGrownTables(db: ClanDatabase): Promise<void> {
    await db.query(`select app.analyze_grown_tables()`);
  }

  /** Writes a whole plan, and the plays that wait. */
  async write(db: ClanDatabase, plan: ImportPlan, privateScopeId: number): Promise<void> {
    for (const table of TABLES) await this.insert(db, table, plan.rows[table], privateScopeId);
    if (plan.packs.length === 0) return;
    const columns = PLAY_COLUMNS.join(', ');
    await db.query(`insert into play (${columns}) select ${columns} from play_in_waiting`);
    for (let from = 0; from < plan.packs.length; from += PACKS_A_STATEMENT) {
      const packs = plan.packs.slice(from, from + PACKS_A_STATEMENT);
      await db.query(
        `insert into chart_pack (clan_id, chart_id, scope_id, format, revision, plays, bytes)
         select $1, p.chart_id, p.scope_id, $2, 1, p.plays, p.bytes
           from unnest($3::uuid[], $4::int[], $5::int[], $6::bytea[]) as p (chart_id, scope_id, plays, bytes)`,
        [
          db.clanId,
          PACK_FORMAT,
          packs.map((pack) => pack.chartId),
          packs.map((pack) => pack.scopeId),
          packs.map((pack) => pack.plays),
          packs.map((pack) => Buffer.from(pack.bytes)),
        ],
      );
    }
  }

  /** To be called last, since every writer of a scope waits for its row. */
  async raiseRevisions(db: ClanDatabase, { packs }: ImportPlan): Promise<void> {
    const scopeIds = [...new Set(packs.map((pack) => pack.scopeId))];
    if (scopeIds.length > 0) await db.query(`select app.raise_scope_revision($1::int[])`, [scopeIds]);
  }

  private async insert(
    db: ClanDatabase,
    table: keyof NewRows,
    rows: NewRows[keyof NewRows],
    scopeId: number,
  ): Promise<void> {
    const [first] = rows;
    if (first === undefined) return;
    const columns = Object.keys(first).filter((column) => column !== 'scope_id');
    await db.query(
      `insert into ${table} (clan_id, scope_id, ${columns.join(', ')})
       select $1, coalesce(r.scope_id, $2), ${columns.map((column) => `r.${column}`).join(', ')}
         from jsonb_populate_recordset(null::${table}, $3::jsonb) r`,
      [db.clanId, scopeId, JSON.stringify(rows)],
    );
  }
}

export const TABLES = [
  'player',
  'player_alias',
  'event',
  'entrant',
  'match',
  'contest',
  'game',
  'game_video',
  'menu_call',
  'own_call',
  'chart',
] as const satisfies readonly (keyof NewRows)[];
