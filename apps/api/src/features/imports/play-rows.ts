import { PLAY_FIELDS, columnName } from '#domain/charting/play-fields.js';
import type { ChartedPlay } from '#domain/charting/play-columns.js';

/** Columns of table `play` in the order in which `copyLine` writes them. */
export const PLAY_COLUMNS: readonly string[] = [
  'clan_id',
  'chart_id',
  'play_number',
  'scope_id',
  'game_id',
  'offense_player_id',
  'defense_player_id',
  'note',
  'adjustment_details',
  'known_by',
  'order_in_game',
  ...PLAY_FIELDS.map((field) => columnName(field.name)),
];

/** A charted play with what its row says beyond the fields. */
export interface PlayRow extends ChartedPlay {
  readonly note: string | null;
  readonly adjustmentDetails: unknown;
  readonly knownBy: unknown;
}

export interface PlayOwner {
  readonly clanId: string;
  readonly chartId: string;
  readonly gameId: string;
  readonly scopeId: number;
  readonly homePlayerId: string;
  readonly awayPlayerId: string;
}

const NULL = '\\N';

/**
 * What the file says of a play, as cells in PostgreSQL's COPY text format: its order in the game and all that comes after
 * the ids in a row of table `play`.
 */
export function playCells(play: PlayRow): string {
  let cells = `${play.note === null ? NULL : escaped(play.note)}\t${json(play.adjustmentDetails)}\t${json(play.knownBy)}`;
  cells += `\t${play.orderInGame}`;
  for (let place = 0; place < PLAY_FIELDS.length; place += 1) {
    const value = play.values[place] ?? null;
    const field = PLAY_FIELDS[place];
    if (value === null) cells += `\t${NULL}`;
    else if (typeof value !== 'number') cells += `\t{${value.join(',')}}`;
    else if (field?.type === 'choice') cells += `\t${field.choices[value] ?? NULL}`;
    else cells += `\t${value}`;
  }
  return cells;
}

/** One row of table `play` in PostgreSQL's COPY text format. */
export function copyLine(owner: PlayOwner, play: PlayRow, cells: string): string {
  const offense = play.offenseIsHome ? owner.homePlayerId : owner.awayPlayerId;
  const defense = play.offenseIsHome ? owner.awayPlayerId : owner.homePlayerId;
  return `${owner.clanId}\t${owner.chartId}\t${play.playNumber}\t${owner.scopeId}\t${owner.gameId}\t${offense}\t${defense}\t${cells}\n`;
}

function json(value: unknown): string {
  return value === null || value === undefined ? NULL : escaped(JSON.stringify(value));
}

const ESCAPES: Readonly<Record<string, string>> = { '\\': '\\\\', '\t': '\\t', '\n': '\\n', '\r': '\\r' };

function escaped(text: string): string {
  return text.replace(/[\\\t\n\r]/g, (character) => ESCAPES[character] ?? character);
}
