import {
  PLAY_FIELDS,
  playField,
  type CodeFieldName,
  type ListFieldName,
  type NumberFieldName,
  type PlayFieldName,
} from './play-fields.js';

/** Stands in a number column where the chart does not say. Outside every range of the catalogue. */
export const UNKNOWN_NUMBER = -32_768;
/** Stands in a code column where the chart does not say. */
export const UNKNOWN_CODE = -1;

/** What one field of one play holds: a number, a choice's place in its list, a term id, several term ids, or unknown. */
export type PlayValue = number | readonly number[] | null;

/** One play as charted, the form in which plays enter the domain one at a time. */
export interface ChartedPlay {
  /** Number within its chart, given once and never reused; what evidence cites. */
  readonly playNumber: number;
  readonly orderInGame: number;
  /** Whether the game's home player has the ball. */
  readonly offenseIsHome: boolean;
  /** Aligned with PLAY_FIELDS. */
  readonly values: readonly PlayValue[];
}

export interface NumberColumn {
  /** One value a play, UNKNOWN_NUMBER where the chart does not say. */
  readonly values: Int16Array;
}

export interface CodeColumn {
  /** One code a play, UNKNOWN_CODE where the chart does not say. */
  readonly codes: Int8Array | Int16Array;
  /** What each code stands for: a term id, or the place of a choice in its list. */
  readonly meanings: readonly number[];
}

export interface ListColumn {
  /** Play i holds codes[starts[i]] up to, not including, codes[starts[i + 1]]; length is plays + 1. */
  readonly starts: Int32Array;
  readonly codes: Int16Array;
  readonly meanings: readonly number[];
  /** 1 where the chart says something, even that the list is empty. */
  readonly known: Uint8Array;
}

export type Column = NumberColumn | CodeColumn | ListColumn;

/** A chart that plays were taken from, by whatever id its store gave it. */
export interface ChartKey {
  readonly chartId: string;
  readonly gameId: string;
}

/** What a batch of plays is made of. Every array has one entry a play. */
export interface PlayColumnsParts {
  readonly charts: readonly ChartKey[];
  /** Place of the play's chart in `charts`. */
  readonly chartIndex: Int32Array;
  readonly playNumber: Uint16Array;
  readonly orderInGame: Uint16Array;
  /** 1 where the game's home player has the ball, 0 where the away player has it. */
  readonly offenseIsHome: Uint8Array;
  readonly columns: ReadonlyMap<PlayFieldName, Column>;
  /** Fields that were carried over, where others were left out to save room; all when left out. */
  readonly carried?: ReadonlySet<PlayFieldName>;
}

/**
 * A batch of plays as typed columns: the one representation from the store to the statistics. A field that no play of
 * the batch knows takes no room and reads as unknown; one that was left out of the batch cannot be read at all. Immutable
 * by convention; nothing writes to a column after it was built.
 */
export class PlayColumns implements PlayColumnsParts {
  readonly count: number;
  readonly charts: readonly ChartKey[];
  readonly chartIndex: Int32Array;
  readonly playNumber: Uint16Array;
  readonly orderInGame: Uint16Array;
  readonly offenseIsHome: Uint8Array;
  readonly columns: ReadonlyMap<PlayFieldName, Column>;
  readonly carried?: ReadonlySet<PlayFieldName>;

  constructor(parts: PlayColumnsParts) {
    this.count = parts.playNumber.length;
    this.charts = parts.charts;
    this.chartIndex = parts.chartIndex;
    this.playNumber = parts.playNumber;
    this.orderInGame = parts.orderInGame;
    this.offenseIsHome = parts.offenseIsHome;
    this.columns = parts.columns;
    if (parts.carried !== undefined) this.carried = parts.carried;
  }

  number(name: NumberFieldName): NumberColumn {
    const column = this.column(name);
    return column !== undefined && 'values' in column ? column : unknownNumbers(this.count);
  }

  code(name: CodeFieldName): CodeColumn {
    const column = this.column(name);
    return column !== undefined && 'meanings' in column && !('starts' in column) ? column : unknownCodes(this.count);
  }

  list(name: ListFieldName): ListColumn {
    const column = this.column(name);
    return column !== undefined && 'starts' in column ? column : unknownLists(this.count);
  }

  /** Whether the field can be read, were it only to be told that nobody knows it. */
  carries(name: PlayFieldName): boolean {
    return this.carried?.has(name) !== false;
  }

  /** A field that was left out would read as one that nobody knows, and the figures would be wrong without a word. */
  private column(name: PlayFieldName): Column | undefined {
    if (!this.carries(name)) throw new Error(`the batch was gathered without ${name}`);
    return this.columns.get(name);
  }
}

function unknownNumbers(count: number): NumberColumn {
  return { values: new Int16Array(count).fill(UNKNOWN_NUMBER) };
}

function unknownCodes(count: number): CodeColumn {
  return { codes: new Int8Array(count).fill(UNKNOWN_CODE), meanings: [] };
}

function unknownLists(count: number): ListColumn {
  return { starts: new Int32Array(count + 1), codes: new Int16Array(0), meanings: [], known: new Uint8Array(count) };
}

/** Builds the columns of one chart from its plays, in the order given. */
export function columnsFromPlays(chart: ChartKey, plays: readonly ChartedPlay[]): PlayColumns {
  const columns = new Map<PlayFieldName, Column>();
  PLAY_FIELDS.forEach((field, place) => {
    if (plays.every(({ values }) => (values[place] ?? null) === null)) return;
    const values = plays.map((play) => play.values[place] ?? null);
    if (field.type === 'number') columns.set(field.name, numbersOf(values));
    else if (field.type === 'terms') columns.set(field.name, listsOf(values));
    else columns.set(field.name, codesOf(values));
  });
  return new PlayColumns({
    charts: [chart],
    chartIndex: new Int32Array(plays.length),
    playNumber: Uint16Array.from(plays, (play) => play.playNumber),
    orderInGame: Uint16Array.from(plays, (play) => play.orderInGame),
    offenseIsHome: Uint8Array.from(plays, (play) => (play.offenseIsHome ? 1 : 0)),
    columns,
  });
}

function numbersOf(values: readonly PlayValue[]): NumberColumn {
  return { values: Int16Array.from(values, (value) => (typeof value === 'number' ? value : UNKNOWN_NUMBER)) };
}

function codesOf(values: readonly PlayValue[]): CodeColumn {
  const dictionary = new Dictionary();
  const codes = values.map((value) => (typeof value === 'number' ? dictionary.code(value) : UNKNOWN_CODE));
  return { codes: narrow(codes, dictionary.meanings.length), meanings: dictionary.meanings };
}

function listsOf(values: readonly PlayValue[]): ListColumn {
  const dictionary = new Dictionary();
  const starts = new Int32Array(values.length + 1);
  const known = new Uint8Array(values.length);
  const codes: number[] = [];
  values.forEach((value, play) => {
    if (value !== null && typeof value !== 'number') {
      known[play] = 1;
      for (const meaning of value) codes.push(dictionary.code(meaning));
    }
    starts[play + 1] = codes.length;
  });
  return { starts, known, codes: Int16Array.from(codes), meanings: dictionary.meanings };
}

/** Int8 holds the codes of nearly every field in one byte; more than 127 different values in a batch take two. */
export function narrow(codes: ArrayLike<number>, meanings: number): Int8Array | Int16Array {
  return meanings <= MOST_IN_A_BYTE ? new Int8Array(codes) : new Int16Array(codes);
}

const MOST_IN_A_BYTE = 127;

/** Gives each distinct meaning a code in the order of first sight. */
class Dictionary {
  readonly meanings: number[] = [];
  private readonly codes = new Map<number, number>();

  code(meaning: number): number {
    const seen = this.codes.get(meaning);
    if (seen !== undefined) return seen;
    const code = this.meanings.push(meaning) - 1;
    this.codes.set(meaning, code);
    return code;
  }
}

/**
 * The first plays of a batch, in arrays of their own.
 *
 * @param count - integer, 0 to as many as there are
 */
export function firstPlays(plays: PlayColumns, count: number): PlayColumns {
  const columns = new Map<PlayFieldName, Column>();
  for (const [name, column] of plays.columns) {
    if ('values' in column) columns.set(name, { values: column.values.slice(0, count) });
    else if ('starts' in column) {
      const starts = column.starts.slice(0, count + 1);
      const codes = column.codes.slice(0, starts[count]);
      columns.set(name, { starts, codes, meanings: column.meanings, known: column.known.slice(0, count) });
    } else columns.set(name, { codes: column.codes.slice(0, count), meanings: column.meanings });
  }
  return new PlayColumns({
    charts: plays.charts,
    chartIndex: plays.chartIndex.slice(0, count),
    playNumber: plays.playNumber.slice(0, count),
    orderInGame: plays.orderInGame.slice(0, count),
    offenseIsHome: plays.offenseIsHome.slice(0, count),
    columns,
    ...(plays.carried !== undefined && { carried: plays.carried }),
  });
}

/** One source of a gathered batch: a chart's plays, and which of them to take. */
export interface PlaySource {
  readonly plays: PlayColumns;
  /** Take the plays on which the home player has the ball, those of the away player, or all. */
  readonly offense: 'home' | 'away' | 'both';
}

export function bothSides(plays: PlayColumns): PlaySource {
  return { plays, offense: 'both' };
}

/**
 * Gathers plays of many charts into one batch. Term ids pass through `canonical`, so that a term of one's own that
 * stands for a starter term counts as that one and a foreign term without one is unknown.
 *
 * @param sources   - charts in the order wanted; each chart at most once
 * @param fields    - fields to carry over; the others are left out to save room
 * @param canonical - term id -> the id to count it as, or null for unknown
 */
export function gatherPlays(
  sources: readonly PlaySource[],
  fields: readonly PlayFieldName[],
  canonical: (termId: number) => number | null,
): PlayColumns {
  const picks = sources.map(({ plays, offense }) => pickPlays(plays, offense));
  const count = picks.reduce((sum, pick) => sum + pick.length, 0);
  const charts: ChartKey[] = [];
  const chartIndex = new Int32Array(count);
  const playNumber = new Uint16Array(count);
  const orderInGame = new Uint16Array(count);
  const offenseIsHome = new Uint8Array(count);
  let to = 0;
  sources.forEach(({ plays }, source) => {
    const firstChart = charts.length;
    charts.push(...plays.charts);
    const pick = picks[source] ?? new Int32Array(0);
    for (const from of pick) {
      chartIndex[to] = firstChart + (plays.chartIndex[from] ?? 0);
      playNumber[to] = plays.playNumber[from] ?? 0;
      orderInGame[to] = plays.orderInGame[from] ?? 0;
      offenseIsHome[to] = plays.offenseIsHome[from] ?? 0;
      to += 1;
    }
  });
  const columns = new Map<PlayFieldName, Column>();
  for (const name of fields) {
    const field = playField(name);
    if (field === undefined || !sources.some(({ plays }) => plays.columns.has(name))) continue;
    const asTerm = field.type === 'choice' ? (meaning: number): number => meaning : canonical;
    if (field.type === 'number') columns.set(name, gatherNumbers(sources, picks, count, field.name));
    else if (field.type === 'terms') columns.set(name, gatherLists(sources, picks, count, field.name, asTerm));
    else columns.set(name, gatherCodes(sources, picks, count, field.name, asTerm));
  }
  const carried = new Set(fields);
  return new PlayColumns({ charts, chartIndex, playNumber, orderInGame, offenseIsHome, columns, carried });
}

function pickPlays(plays: PlayColumns, offense: PlaySource['offense']): Int32Array {
  const picked = new Int32Array(plays.count);
  const wanted = offense === 'home' ? 1 : 0;
  let length = 0;
  for (let play = 0; play < plays.count; play += 1) {
    if (offense === 'both' || plays.offenseIsHome[play] === wanted) picked[length++] = play;
  }
  return picked.subarray(0, length);
}

type Picks = readonly Int32Array[];

function gatherNumbers(
  sources: readonly PlaySource[],
  picks: Picks,
  count: number,
  name: NumberFieldName,
): NumberColumn {
  const values = new Int16Array(count).fill(UNKNOWN_NUMBER);
  let to = 0;
  sources.forEach(({ plays }, source) => {
    const pick = picks[source] ?? new Int32Array(0);
    const column = plays.columns.get(name);
    if (column !== undefined && 'values' in column) {
      for (let i = 0; i < pick.length; i += 1) values[to + i] = column.values[pick[i] ?? 0] ?? UNKNOWN_NUMBER;
    }
    to += pick.length;
  });
  return { values };
}

/**
 * Local codes of one chart -> codes of the batch; an unknown stays unknown.
 *
 * @param into - overwritten and returned where it is large enough, since an archive has a hundred thousand of these
 */
function translation(
  meanings: readonly number[],
  dictionary: Dictionary,
  canonical: (termId: number) => number | null,
  into: Int16Array = new Int16Array(meanings.length),
): Int16Array {
  const translate = into.length >= meanings.length ? into : new Int16Array(meanings.length);
  for (let code = 0; code < meanings.length; code += 1) {
    const counted = canonical(meanings[code] ?? UNKNOWN_CODE);
    translate[code] = counted === null ? UNKNOWN_CODE : dictionary.code(counted);
  }
  return translate;
}

function gatherCodes(
  sources: readonly PlaySource[],
  picks: Picks,
  count: number,
  name: CodeFieldName,
  canonical: (termId: number) => number | null,
): CodeColumn {
  const dictionary = new Dictionary();
  // A byte a play from the start, two as soon as there are too many values for one.
  let codes: Int8Array | Int16Array = new Int8Array(count).fill(UNKNOWN_CODE);
  let translate: Int16Array = new Int16Array(0);
  let to = 0;
  sources.forEach(({ plays }, source) => {
    const pick = picks[source] ?? new Int32Array(0);
    const column = plays.columns.get(name);
    if (column !== undefined && 'meanings' in column && !('starts' in column)) {
      translate = translation(column.meanings, dictionary, canonical, translate);
      if (codes.BYTES_PER_ELEMENT === 1 && dictionary.meanings.length > MOST_IN_A_BYTE) codes = new Int16Array(codes);
      place(column.codes, pick, translate, codes, to);
    }
    to += pick.length;
  });
  return { codes, meanings: dictionary.meanings };
}

/** Picked codes of one chart, translated, from a place of the batch on. */
function place(
  from: Int8Array | Int16Array,
  pick: Int32Array,
  translate: Int16Array,
  codes: Int8Array | Int16Array,
  to: number,
): void {
  for (let i = 0; i < pick.length; i += 1) {
    const code = from[pick[i] ?? 0] ?? UNKNOWN_CODE;
    if (code >= 0) codes[to + i] = translate[code] ?? UNKNOWN_CODE;
  }
}

function gatherLists(
  sources: readonly PlaySource[],
  picks: Picks,
  count: number,
  name: ListFieldName,
  canonical: (termId: number) => number | null,
): ListColumn {
  const dictionary = new Dictionary();
  const starts = new Int32Array(count + 1);
  const known = new Uint8Array(count);
  const codes: number[] = [];
  let to = 0;
  sources.forEach(({ plays }, source) => {
    const column = plays.list(name);
    const translate = translation(column.meanings, dictionary, canonical);
    for (const from of picks[source] ?? []) {
      known[to] = column.known[from] ?? 0;
      for (let at = column.starts[from] ?? 0; at < (column.starts[from + 1] ?? 0); at += 1) {
        const code = translate[column.codes[at] ?? 0] ?? UNKNOWN_CODE;
        if (code >= 0) codes.push(code);
      }
      to += 1;
      starts[to] = codes.length;
    }
  });
  return { starts, known, codes: Int16Array.from(codes), meanings: dictionary.meanings };
}
