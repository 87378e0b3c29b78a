import { PLAY_FIELDS, columnName } from '#domain/charting/play-fields.js';
import type { ChartedPlay } from '#domain/charting/play-columns.js';

/** Columns of table `play` in the order in which `copyLine` writes them. */
export const PLAY_COLUMNS: readonly string[] = [
  'clan_id',
  'chart_id',
  'play_number',
  'order_in_game',
  'scope_id',
  'game_id',
  'offense_player_id',
  'defense_player_id',
  'note',
  'adjustment_details',
  'known_by',
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

/** One row of table `play` in PostgreSQL's COPY text format. */
export function copyLine(owner: PlayOwner, play: PlayRow): string {
  const offense = play.offenseIsHome ? owner.homePlayerId : owner.awayPlayerId;
  const defense = play.offenseIsHome ? owner.awayPlayerId : owner.homePlayerId;
  let line = `${owner.clanId}\t${owner.chartId}\t${play.playNumber}\t${play.orderInGame}\t${owner.scopeId}\t${owner.gameId}\t${offense}\t${defense}`;
  line += `\t${play.note === null ? NULL : escaped(play.note)}\t${json(play.adjustmentDetails)}\t${json(play.knownBy)}`;
  for (let place = 0; place < PLAY_FIELDS.length; place += 1) {
    const value = play.values[place] ?? null;
    const field = PLAY_FIELDS[place];
    if (value === null) line += `\t${NULL}`;
    else if (typeof value !== 'number') line += `\t{${value.join(',')}}`;
    else if (field?.type === 'choice') line += `\t${field.choices[value] ?? NULL}`;
    else line += `\t${value}`;
  }
  return `${line}\n`;
}

function json(value: unknown): string {
  return value === null || value === undefined ? NULL : escaped(JSON.stringify(value));
}

const ESCAPES: Readonly<Record<string, string>> = { '\\': '\\\\', '\t': '\\t', '\n': '\\n', '\r': '\\r' };

function escaped(text: string): string {
  return text.replace(/[\\\t\n\r]/g, (character) => ESCAPES[character] ?? character);
}
