import { columnsFromPlays, PlayColumns, type ChartedPlay, type PlayValue } from '../../charting/play-columns.js';
import { fieldPlace, PLAY_FIELDS, PLAY_TYPES, type PlayFieldName } from '../../charting/play-fields.js';
import { columnLabels, squeezeHeader, type SheetKey, type SheetMapping } from '../../charting/sheet-mapping.js';
import { mappedSheet } from '../../charting/sheet-mapping-reader.js';
import { DomainError } from '../../domain-error.js';
import { forecastSnaps, type ForecastSnaps } from '../forecast-snaps.js';
import { fillSituation } from './fill-situation.js';
import { gamesInTime, type GameOrder, type GameTime } from './game-order.js';
import { LenientCells, sheetColumns } from './lenient-cells.js';

/** Columns of a sheet to evaluate that the import does not know: when the game was played, and who has not the ball. */
const OWN_COLUMNS = {
  date: ['date', 'playedat', 'playedon', 'gamedate'],
  season: ['season', 'year'],
  week: ['week'],
  defense: ['defense', 'defence', 'opponent'],
} as const;
type OwnColumn = keyof typeof OWN_COLUMNS;

/** What was not as the import would have it, and what was made of it. Nothing here stops an evaluation. */
export interface SheetNotes {
  readonly ignoredColumns: readonly string[];
  /** Columns whose headers were taken for a field's, and that field. */
  readonly guessedColumns: ReadonlyMap<string, string>;
  /** Cells by column that could not be read and count as unknown, and one of them. */
  readonly unreadCells: ReadonlyMap<string, { readonly cells: number; readonly example: string }>;
  /** Words by column that no term of the vocabulary has; each counts as a value of its own. */
  readonly ownWords: ReadonlyMap<string, number>;
  /** Rows of further charts of a game, which would count its snaps twice. */
  readonly doubleRows: number;
  /** Games with more than two sides on the ball; their defense is not known. */
  readonly gamesWithoutTwoSides: number;
  /** Blanks of the situation that were filled from earlier plays of their game, see `fillSituation`. */
  readonly filledCells: number;
  readonly orderedBy: GameOrder;
  /** Games that do not say what the others are ordered by, and go by where they stand in the file. */
  readonly untimedGames: number;
}

interface SheetRow {
  readonly values: readonly PlayValue[];
  readonly keys: Partial<Record<SheetKey, string>>;
  readonly offenseIsOther: boolean;
  readonly own: Readonly<Record<OwnColumn, string>>;
}

/**
 * Which columns of a sheet say anything to an evaluation, so that the others need not be kept.
 *
 * @param mapping - how other headers are to be understood; null for those of the import
 */
export function usedColumns(header: readonly string[], mapping: SheetMapping | null): readonly boolean[] {
  const labels = columnLabels(header);
  const own = new Set(Object.values(ownPlaces(labels)));
  return sheetColumns(labels, mapping).map((column, place) => column !== null || own.has(place));
}

function ownPlaces(labels: readonly string[]): Readonly<Record<OwnColumn, number>> {
  const placeOf = (name: OwnColumn): number =>
    labels.findIndex((label) => OWN_COLUMNS[name].some((header) => header === squeezeHeader(label)));
  return { date: placeOf('date'), season: placeOf('season'), week: placeOf('week'), defense: placeOf('defense') };
}

/**
 * Reads a sheet of plays for evaluation. Unlike the import it never refuses a cell: whatever cannot be read is unknown,
 * and a word outside the vocabulary stands for itself. Games go in time order, see `gamesInTime`; plays by `order` where
 * all of a game's have one, else as they stand. Of several charts of a game the first counts. Without a column `game` the
 * games are told apart by date and the two sides.
 *
 * @param header  - names of the columns
 * @param rows    - cells of each row
 * @param mapping - how other headers are to be understood; null for those of the import
 * @param hidden  - fields that are taken not to be there
 * @throws DomainError `forecast.unusable_sheet` when nothing says which game a play belongs to, or there is no play
 */
export function readForecastSheet(
  header: readonly string[],
  rows: readonly (readonly string[])[],
  mapping: SheetMapping | null,
  hidden: ReadonlySet<PlayFieldName> = new Set(),
): { readonly snaps: ForecastSnaps; readonly notes: SheetNotes } {
  if (rows.length === 0) throw new DomainError('forecast.unusable_sheet', 'the sheet holds no play', {});
  const labels = columnLabels(header);
  const cells = new LenientCells(labels, rows, mapping);
  const own = ownPlaces(labels);
  const used = new Set(Object.values(own));
  const sheet = mappedSheet(cells.mapping(used), header, cells.vocabulary);
  const unseen = PLAY_FIELDS.flatMap(({ name }, place) => (hidden.has(name) ? [place] : []));
  const read: SheetRow[] = rows.map((row) => {
    const tidy = cells.tidy(row);
    const { values, keys, offenseIsOther, findings } = sheet.read(tidy);
    for (const finding of findings) cells.countUnread(finding);
    withPlayType(values);
    for (const place of unseen) values[place] = null;
    const said = Object.fromEntries(Object.entries(own).map(([name, place]) => [name, tidy[place]?.trim() ?? '']));
    return { values, keys, offenseIsOther, own: said as SheetRow['own'] };
  });
  if (!read.some((row) => gameOf(row) !== '')) {
    throw new DomainError(
      'forecast.unusable_sheet',
      'nothing says which game a play belongs to: no column "game", nor "date", "offense" and "defense" together. ' +
        `A mapping file can name the column; the sheet has ${headerWords(labels)}`,
      {},
    );
  }
  const games = gamesOf(read);
  const { plays, who, gamesWithoutTwoSides, filledCells } = columnsOf(games.inOrder);
  if (!plays.columns.has('playType')) {
    throw new DomainError('forecast.unusable_sheet', 'no row has a play type, a down or a call that can be read', {});
  }
  return {
    snaps: forecastSnaps(plays, cells.vocabulary, who),
    notes: {
      ignoredColumns: cells.ignored(used),
      guessedColumns: cells.guessed,
      unreadCells: cells.unread,
      ownWords: cells.ownWords,
      doubleRows: games.doubleRows,
      gamesWithoutTwoSides,
      filledCells,
      orderedBy: games.by,
      untimedGames: games.untimed,
    },
  };
}

const MOST_HEADERS = 12;

function headerWords(labels: readonly string[]): string {
  const rest = labels.length - MOST_HEADERS;
  return `${labels.slice(0, MOST_HEADERS).join(', ')}${rest > 0 ? ` and ${rest} more columns` : ''}`;
}

/** The game of a row; without a reference the two sides and the day, empty where these are not known either. */
function gameOf({ keys, own: { date, defense } }: SheetRow): string {
  if (keys.game !== undefined) return keys.game;
  const { offense = '' } = keys;
  return date === '' || offense === '' || defense === '' ? '' : [date, ...[offense, defense].sort()].join(' ');
}

const PLAY_TYPE = fieldPlace('playType');
const SCRIMMAGE = PLAY_TYPES.indexOf('scrimmage');
const OF_SCRIMMAGE = (['down', 'called', 'callFamily', 'concept'] as const).map(fieldPlace);

/** A row with a down or a call but no play type is a play from scrimmage. */
function withPlayType(values: PlayValue[]): void {
  if (values[PLAY_TYPE] === null && OF_SCRIMMAGE.some((place) => values[place] !== null)) values[PLAY_TYPE] = SCRIMMAGE;
}

interface SheetGame {
  readonly name: string;
  readonly rows: SheetRow[];
}

interface TimedGame extends SheetGame {
  /** See `ForecastSnaps.round`. */
  readonly round: number;
}

function gamesOf(rows: readonly SheetRow[]): {
  readonly inOrder: readonly TimedGame[];
  readonly by: GameOrder;
  readonly untimed: number;
  readonly doubleRows: number;
} {
  const games = new Map<string, { chart: string; game: SheetGame }>();
  let doubleRows = 0;
  for (const row of rows) {
    const name = gameOf(row);
    const { chart = '' } = row.keys;
    if (name === '') continue;
    let known = games.get(name);
    if (known === undefined) games.set(name, (known = { chart, game: { name, rows: [] } }));
    if (known.chart === chart) known.game.rows.push(row);
    else doubleRows += 1;
  }
  const asTheyStand = [...games.values()].map(({ game }) => game);
  for (const { rows: plays } of asTheyStand) {
    const orders = plays.map(({ keys }) => Number(keys.order ?? Number.NaN));
    if (orders.some(Number.isNaN)) continue;
    const places = [...plays.keys()].sort((a, b) => (orders[a] ?? 0) - (orders[b] ?? 0) || a - b);
    plays.splice(0, plays.length, ...places.flatMap((place) => plays[place] ?? []));
  }
  const { places, rounds, ...how } = gamesInTime(asTheyStand.map((game) => timeOf(game)));
  const inOrder = places.flatMap((place, at): TimedGame[] => {
    const game = asTheyStand[place];
    return game === undefined ? [] : [{ ...game, round: rounds[at] ?? 0 }];
  });
  return { inOrder, ...how, doubleRows };
}

function timeOf({ name, rows }: SheetGame): GameTime {
  const first = (column: OwnColumn): string => rows.find(({ own }) => own[column] !== '')?.own[column] ?? '';
  return { name, date: first('date'), season: first('season'), week: first('week') };
}

function columnsOf(games: readonly TimedGame[]): {
  readonly plays: PlayColumns;
  readonly who: Pick<ForecastSnaps, 'game' | 'round' | 'offense' | 'defense'>;
  readonly gamesWithoutTwoSides: number;
  readonly filledCells: number;
} {
  const players = new Map<string, number>();
  const playerOf = (name: string | undefined): number => {
    if (name === undefined || name === '') return -1;
    const known = players.get(name);
    if (known === undefined) players.set(name, players.size);
    return known ?? players.size - 1;
  };
  const charted: ChartedPlay[] = [];
  const [game, round, offense, defense]: [number[], number[], number[], number[]] = [[], [], [], []];
  let gamesWithoutTwoSides = 0;
  let filledCells = 0;
  games.forEach(({ rows, round: time }, place) => {
    const named = new Set(rows.flatMap(({ keys, own }) => [playerOf(keys.offense), playerOf(own.defense)]));
    named.delete(-1);
    if (named.size > 2) gamesWithoutTwoSides += 1;
    const [home = -1, away = -1] = named.size <= 2 ? [...named] : [];
    const sides = rows.map((row) => {
      const said = playerOf(row.keys.offense);
      const other = said === -1 ? -1 : said === home ? away : said === away ? home : -1;
      const named = playerOf(row.own.defense);
      return {
        values: row.values,
        offense: row.offenseIsOther ? other : said,
        defense: named >= 0 ? named : row.offenseIsOther ? said : other,
      };
    });
    const known = fillSituation(sides);
    filledCells += known.filled;
    sides.forEach((play, at) => {
      const values = known.values[at] ?? play.values;
      charted.push({ playNumber: at + 1, orderInGame: at + 1, offenseIsHome: play.offense === home, values });
      game.push(place);
      round.push(time);
      offense.push(play.offense);
      defense.push(play.defense);
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
  const who = {
    game: Int32Array.from(game),
    round: Int32Array.from(round),
    offense: Int32Array.from(offense),
    defense: Int32Array.from(defense),
  };
  return { plays, who, gamesWithoutTwoSides, filledCells };
}
