import { Injectable } from '@nestjs/common';
import { PACK_FORMAT } from '#domain/charting/packed-plays.js';
import type { PlayValue } from '#domain/charting/play-columns.js';
import { columnName, type PlayField } from '#domain/charting/play-fields.js';
import { columnValues, rowOfValues, VALUE_COLUMNS, type PlayColumnsRow } from '../../common/play-values.js';
import type { ClanDatabase } from '../../database/clan-transaction.js';
import type { Packed } from '../charts/chart-changes.service.js';
import type { PlayFacts } from './read-play.js';

/** A chart, locked for as long as its plays are being changed. */
export interface LockedChart {
  readonly id: string;
  readonly gameId: string;
  readonly kind: string;
}

/** A place in a list of plays. */
export interface PlayKey {
  readonly chartId: string;
  readonly orderInGame: number;
  readonly playNumber: number;
}

/** A field of the catalogue and the value that it must have; of a term every id that counts as it. */
export interface PlayFilter {
  readonly field: PlayField;
  readonly value: PlayValue;
}

/** Whose plays are listed. */
export type PlaysOf =
  | { readonly chartIds: readonly string[] }
  | { readonly gameId: string }
  | {
      readonly chartIds: readonly string[];
      readonly side: 'offense' | 'defense';
      readonly playerIds: readonly string[];
    };

export type PlayRow = PlayColumnsRow &
  PlayKey & {
    readonly gameId: string;
    readonly offense: 'home' | 'away';
    readonly offensePlayerId: string;
    readonly defensePlayerId: string;
    readonly adjustments: readonly unknown[] | null;
    readonly knownBy: unknown;
    readonly note: string | null;
  };

/** A locked chart, where its next play goes, and what there is already. */
export interface OpenedChart extends LockedChart {
  readonly scopeId: number;
  readonly homePlayerId: string;
  readonly awayPlayerId: string;
  /** No play of the chart ever had it. */
  readonly playNumber: number;
  readonly orderInGame: number;
  readonly chartsOfGame: number;
  /** Plays that the clan keeps. */
  readonly kept: number;
  /** Of the plays as they are; null where it must be made of the rows: none, or not of this code. */
  readonly packed: Packed | null;
  /** Of the clan: see `TermsService.vocabulary`. */
  readonly words: string;
}

/** A play with its place among those of its chart. */
type OrderedFacts = PlayFacts & { readonly orderInGame: number };

const PLAY = `
  select p.chart_id as "chartId", p.play_number as "playNumber", p.order_in_game as "orderInGame",
         p.game_id as "gameId", case when p.offense_player_id = g.home_player_id then 'home' else 'away' end as offense,
         p.offense_player_id as "offensePlayerId", p.defense_player_id as "defensePlayerId",
         p.adjustment_details as adjustments, p.known_by as "knownBy", p.note,
         ${VALUE_COLUMNS.map((column) => `p.${column}`).join(', ')}
    from play p join game g on g.clan_id = p.clan_id and g.id = p.game_id`;

const SET = ['order_in_game', 'note', 'adjustment_details', 'known_by', ...VALUE_COLUMNS];
/** The parameters that `SET` takes, behind those that say which play. */
const placesFrom = (first: number): string[] => SET.map((_, place) => `$${place + first}`);

const PLAYERS = `case $4 when 'home' then g.home_player_id else g.away_player_id end,
                 case $4 when 'home' then g.away_player_id else g.home_player_id end`;

@Injectable()
export class PlaysRepository {
  /**
   * An own chart, locked with its game for as long as the transaction lasts: changes of its plays come one after the
   * other, and no other chart of the game is made of what counts meanwhile.
   */
  async lockChart(db: ClanDatabase, chartId: string): Promise<LockedChart | null> {
    const rows = await db.query<LockedChart & Record<string, unknown>>(
      `select c.id, c.game_id as "gameId", c.kind
         from chart c join game g on g.clan_id = c.clan_id and g.id = c.game_id
        where c.clan_id = $1 and c.id = $2 for no key update`,
      [db.clanId, chartId],
    );
    return rows[0] ?? null;
  }

  /** Whether the reader sees the chart, or the game, that plays are asked of. */
  async sees(db: ClanDatabase, table: 'chart' | 'game', id: string): Promise<boolean> {
    return (await db.query(`select id from ${table} where id = $1 limit 1`, [id])).length > 0;
  }

  async find(db: ClanDatabase, chartId: string, playNumber: number): Promise<PlayRow | null> {
    const rows = await db.query<PlayRow>(
      `${PLAY} where p.chart_id = $2 and p.play_number = $3 order by p.clan_id <> $1 limit 1`,
      [db.clanId, chartId, playNumber],
    );
    return rows[0] ?? null;
  }

  async findOwn(db: ClanDatabase, chartId: string, playNumber: number): Promise<PlayRow | null> {
    const rows = await db.query<PlayRow>(`${PLAY} where p.clan_id = $1 and p.chart_id = $2 and p.play_number = $3`, [
      db.clanId,
      chartId,
      playNumber,
    ]);
    return rows[0] ?? null;
  }

  list(
    db: ClanDatabase,
    of: PlaysOf,
    { after, filters }: { readonly after: PlayKey | null; readonly filters: readonly PlayFilter[] },
    limit: number,
  ): Promise<PlayRow[]> {
    const parameters: unknown[] = [];
    const place = (value: unknown): string => `$${parameters.push(value)}`;
    const conditions: string[] = [];
    if ('gameId' in of) conditions.push(`p.game_id = ${place(of.gameId)}`);
    else conditions.push(`p.chart_id = any(${place(of.chartIds)}::uuid[])`);
    if ('side' in of) conditions.push(`p.${of.side}_player_id = any(${place(of.playerIds)}::uuid[])`);
    if (after !== null) {
      const key = [after.chartId, after.orderInGame, after.playNumber].map(place);
      conditions.push(`(p.chart_id, p.order_in_game, p.play_number) > (${key.join(', ')})`);
    }
    for (const { field, value } of filters) conditions.push(condition(field, value, place));
    return db.query<PlayRow>(
      `${PLAY} where ${conditions.join(' and ')}
        order by p.chart_id, p.order_in_game, p.play_number limit ${place(limit)}`,
      parameters,
    );
  }

  /** Whether another play of the chart has this order; asked with the chart locked. */
  async orderTaken(db: ClanDatabase, chartId: string, order: number, butOf: number): Promise<boolean> {
    const rows = await db.query(
      `select play_number from play where clan_id = $1 and chart_id = $2 and order_in_game = $3 and play_number <> $4`,
      [db.clanId, chartId, order, butOf],
    );
    return rows.length > 0;
  }

  /** The same with all that adding a play asks, in one statement: people wait for it. */
  async openChart(db: ClanDatabase, chartId: string): Promise<OpenedChart | null> {
    const [row] = await db.query<Omit<OpenedChart, 'packed'> & { packPlays: number; pack: Buffer | null }>(
      `select scope_id as "scopeId", game_id as "gameId", home_player_id as "homePlayerId",
              away_player_id as "awayPlayerId", kind, play_number as "playNumber", order_in_game as "orderInGame",
              charts_of_game as "chartsOfGame", plays_kept as kept, pack_plays as "packPlays", pack, words
         from app.open_chart($1, $2)`,
      [chartId, PACK_FORMAT],
    );
    if (row === undefined) return null;
    const { packPlays, pack, ...opened } = row;
    return { ...opened, id: chartId, packed: pack === null ? null : { plays: packPlays, bytes: pack } };
  }

  /** Adds the next play of a chart. Only what the database writes in its own way is read back. */
  async insert(db: ClanDatabase, chart: OpenedChart, facts: OrderedFacts): Promise<PlayRow> {
    const { id: chartId, gameId, playNumber, scopeId, homePlayerId, awayPlayerId } = chart;
    const { orderInGame, note, values } = facts;
    const atHome = facts.offense === 'home';
    const offense: PlayRow['offense'] = atHome ? 'home' : 'away';
    const offensePlayerId = atHome ? homePlayerId : awayPlayerId;
    const defensePlayerId = atHome ? awayPlayerId : homePlayerId;
    const rows = await db.query<Pick<PlayRow, 'adjustments' | 'knownBy'> & Record<string, unknown>>(
      `insert into play (clan_id, chart_id, scope_id, game_id, play_number, offense_player_id, defense_player_id,
                         ${SET.join(', ')})
       values ($1, $2, $3, $4, $5, $6, $7, ${placesFrom(8).join(', ')})
       returning adjustment_details as adjustments, known_by as "knownBy"`,
      [db.clanId, chartId, scopeId, gameId, playNumber, offensePlayerId, defensePlayerId, ...setValues(facts)],
    );
    const [stored] = rows;
    if (stored === undefined) throw new Error('the play was not written');
    const place = { chartId, playNumber, orderInGame, gameId, offense, offensePlayerId, defensePlayerId };
    return { ...rowOfValues(values), ...place, ...stored, note };
  }

  async update(db: ClanDatabase, chartId: string, playNumber: number, facts: PlayFacts): Promise<void> {
    await db.query(
      `update play p
          set (offense_player_id, defense_player_id) = (select ${PLAYERS} from game g
                                                         where g.clan_id = p.clan_id and g.id = p.game_id),
              (${SET.join(', ')}) = row(${placesFrom(5).join(', ')})
        where p.clan_id = $1 and p.chart_id = $2 and p.play_number = $3`,
      [db.clanId, chartId, playNumber, facts.offense, ...setValues(facts)],
    );
  }

  /** The number stays taken: evidence may cite it. */
  async remove(db: ClanDatabase, chartId: string, playNumber: number): Promise<void> {
    await db.query(`delete from play where clan_id = $1 and chart_id = $2 and play_number = $3`, [
      db.clanId,
      chartId,
      playNumber,
    ]);
    await db.query(
      `update chart set last_removed_number = greatest(last_removed_number, $3) where clan_id = $1 and id = $2`,
      [db.clanId, chartId, playNumber],
    );
  }
}

function condition(field: PlayField, value: PlayValue, place: (value: unknown) => string): string {
  const column = `p.${columnName(field.name)}`;
  switch (field.type) {
    case 'number':
      return `${column} = ${place(value)}`;
    case 'choice':
      return `${column} = ${place(typeof value === 'number' ? field.choices[value] : null)}`;
    case 'term':
      return `${column} = any(${place(value)}::int[])`;
    case 'terms':
      return `${column} && ${place(value)}::int[]`;
  }
}

function setValues({ orderInGame, note, adjustments, knownBy, values }: PlayFacts): unknown[] {
  return [orderInGame, note, json(adjustments), json(knownBy), ...columnValues(values)];
}

function json(value: unknown): string | null {
  return value === null ? null : JSON.stringify(value);
}
