import { columnsFromPlays, PlayColumns, type ChartedPlay, type PlayValue } from '../../charting/play-columns.js';
import { PLAY_FIELDS, PLAY_TYPES } from '../../charting/play-fields.js';
import { columnLabels, squeezeHeader, type SheetKey, type SheetMapping } from '../../charting/sheet-mapping.js';
import { mappedSheet } from '../../charting/sheet-mapping-reader.js';
import { DomainError } from '../../domain-error.js';
import { forecastSnaps, type ForecastSnaps } from '../forecast-snaps.js';
import { LenientCells } from './lenient-cells.js';

/** Columns of a sheet to evaluate that the import does not know: when the game was played, and who has not the ball. */
const DATE_HEADERS = new Set(['date', 'playedat', 'gamedate']);
const DEFENSE_HEADERS = new Set(['defense', 'defence', 'opponent']);

/** What was not as the import would have it, and what was made of it. Nothing here stops an evaluation. */
export interface SheetNotes {
  readonly ignoredColumns: readonly string[];
  /** Cells by column that could not be read and count as unknown. */
  readonly unreadCells: ReadonlyMap<string, number>;
  /** Words by column that no term of the vocabulary has; each counts as a value of its own. */
  readonly ownWords: ReadonlyMap<string, number>;
  /** Rows of further charts of a game, which would count its snaps twice. */
  readonly doubleRows: number;
  /** Games with more than two sides on the ball; their defense is not known. */
  readonly gamesWithoutTwoSides: number;
  readonly orderedBy: 'date' | 'file';
}

interface SheetRow {
  readonly values: readonly PlayValue[];
  readonly keys: Partial<Record<SheetKey, string>>;
  readonly offenseIsOther: boolean;
  readonly date: string;
  readonly defense: string;
}

/**
 * Reads a sheet of plays for evaluation. Unlike the import it never refuses a cell: whatever cannot be read is unknown,
 * and a word outside the vocabulary stands for itself. Games go by their date where the sheet has one, else as they
 * stand; plays by `order` where all of a game's have one, else as they stand. Of several charts of a game the first
 * counts.
 *
 * @param header  - names of the columns
 * @param rows    - cells of each row
 * @param mapping - how other headers are to be understood; null for those of the import
 * @throws DomainError `forecast.unusable_sheet` when nothing says which game a play belongs to, or there is no play
 */
export function readForecastSheet(
  header: readonly string[],
  rows: readonly (readonly string[])[],
  mapping: SheetMapping | null,
): { readonly snaps: ForecastSnaps; readonly notes: SheetNotes } {
  const labels = columnLabels(header);
  const cells = new LenientCells(labels, rows, mapping);
  const dateColumn = labels.findIndex((label) => DATE_HEADERS.has(squeezeHeader(label)));
  const defenseColumn = labels.findIndex((label) => DEFENSE_HEADERS.has(squeezeHeader(label)));
  const used = new Set([dateColumn, defenseColumn]);
  const sheet = mappedSheet(cells.mapping(used), header, cells.vocabulary);
  const read: SheetRow[] = rows.map((row) => {
    const { values, keys, offenseIsOther, findings } = sheet.read(cells.tidy(row));
    for (const { header: label } of findings) cells.countUnread(label);
    withPlayType(values);
    const [date = '', defense = ''] = [row[dateColumn]?.trim(), row[defenseColumn]?.trim()];
    return { values, keys, offenseIsOther, date, defense };
  });
  if (!read.some(({ keys }) => keys.game !== undefined)) {
    throw new DomainError('forecast.unusable_sheet', 'no column says which game a play belongs to', { header });
  }
  const games = gamesOf(read);
  const { plays, who, gamesWithoutTwoSides } = columnsOf(games.inOrder);
  if (plays.count === 0) throw new DomainError('forecast.unusable_sheet', 'the sheet holds no play', {});
  return {
    snaps: forecastSnaps(plays, cells.vocabulary, who),
    notes: {
      ignoredColumns: cells.ignored(used),
      unreadCells: cells.unread,
      ownWords: cells.ownWords,
      doubleRows: games.doubleRows,
      gamesWithoutTwoSides,
      orderedBy: games.isDated ? 'date' : 'file',
    },
  };
}

const PLAY_TYPE = PLAY_FIELDS.findIndex(({ name }) => name === 'playType');
const DOWN = PLAY_FIELDS.findIndex(({ name }) => name === 'down');
const CALLED = PLAY_FIELDS.findIndex(({ name }) => name === 'called');
const SCRIMMAGE = PLAY_TYPES.indexOf('scrimmage');

/** A row with a down or a call but no play type is a play from scrimmage. */
function withPlayType(values: PlayValue[]): void {
  if (values[PLAY_TYPE] === null && (values[DOWN] !== null || values[CALLED] !== null)) values[PLAY_TYPE] = SCRIMMAGE;
}

interface SheetGame {
  readonly name: string;
  readonly rows: SheetRow[];
}

function gamesOf(rows: readonly SheetRow[]): {
  readonly inOrder: readonly SheetGame[];
  readonly isDated: boolean;
  readonly doubleRows: number;
} {
  const games = new Map<string, { chart: string; game: SheetGame }>();
  let doubleRows = 0;
  for (const row of rows) {
    const { game: name = '', chart = '' } = row.keys;
    if (name === '') continue;
    let known = games.get(name);
    if (known === undefined) games.set(name, (known = { chart, game: { name, rows: [] } }));
    if (known.chart === chart) known.game.rows.push(row);
    else doubleRows += 1;
  }
  const inOrder = [...games.values()].map(({ game }) => game);
  const dateOf = ({ rows: plays }: SheetGame): string => plays.find(({ date }) => date !== '')?.date ?? '';
  const isDated = inOrder.length > 0 && inOrder.every((game) => /^\d{4}-\d\d-\d\d/.test(dateOf(game)));
  if (isDated) inOrder.sort((a, b) => (dateOf(a) < dateOf(b) ? -1 : dateOf(a) > dateOf(b) ? 1 : 0));
  for (const { rows: plays } of inOrder) {
    const orders = plays.map(({ keys }) => Number(keys.order ?? Number.NaN));
    if (orders.some(Number.isNaN)) continue;
    const places = [...plays.keys()].sort((a, b) => (orders[a] ?? 0) - (orders[b] ?? 0) || a - b);
    plays.splice(0, plays.length, ...places.flatMap((place) => plays[place] ?? []));
  }
  return { inOrder, isDated, doubleRows };
}

function columnsOf(games: readonly SheetGame[]): {
  readonly plays: PlayColumns;
  readonly who: Pick<ForecastSnaps, 'game' | 'offense' | 'defense'>;
  readonly gamesWithoutTwoSides: number;
} {
  const players = new Map<string, number>();
  const playerOf = (name: string | undefined): number => {
    if (name === undefined || name === '') return -1;
    const known = players.get(name);
    if (known === undefined) players.set(name, players.size);
    return known ?? players.size - 1;
  };
  const charted: ChartedPlay[] = [];
  const [game, offense, defense]: [number[], number[], number[]] = [[], [], []];
  let gamesWithoutTwoSides = 0;
  games.forEach(({ rows }, place) => {
    const named = new Set(rows.flatMap(({ keys, defense: other }) => [playerOf(keys.offense), playerOf(other)]));
    named.delete(-1);
    if (named.size > 2) gamesWithoutTwoSides += 1;
    const [home = -1, away = -1] = named.size <= 2 ? [...named] : [];
    rows.forEach((row, at) => {
      const said = playerOf(row.keys.offense);
      const other = said === -1 ? -1 : said === home ? away : said === away ? home : -1;
      const hasBall = row.offenseIsOther ? other : said;
      const named = playerOf(row.defense);
      charted.push({ playNumber: at + 1, orderInGame: at + 1, offenseIsHome: hasBall === home, values: row.values });
      game.push(place);
      offense.push(hasBall);
      defense.push(named >= 0 ? named : row.offenseIsOther ? said : other);
    });
  });
  const batch = columnsFromPlays({ chartId: '', gameId: '' }, charted);
  const plays = new PlayColumns({
    playNumber: batch.playNumber,
    orderInGame: batch.orderInGame,
    offenseIsHome: batch.offenseIsHome,
    columns: batch.columns,
    charts: games.map(({ name }) => ({ chartId: name, gameId: name })),
    chartIndex: Int32Array.from(game),
  });
  const who = { game: Int32Array.from(game), offense: Int32Array.from(offense), defense: Int32Array.from(defense) };
  return { plays, who, gamesWithoutTwoSides };
}
