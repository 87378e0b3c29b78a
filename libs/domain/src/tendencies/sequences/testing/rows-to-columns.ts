import {
  narrow,
  PlayColumns,
  UNKNOWN_CODE,
  UNKNOWN_NUMBER,
  type Column,
  type PlayValue,
} from '../../../charting/play-columns.js';
import { playField, type PlayFieldName } from '../../../charting/play-fields.js';
import { starterVocabulary } from '../../../charting/vocabulary.js';

// Test support: charts of many thousand simulated plays, built without a look at the fields that they leave out.

/** A simulated play: numbers as they are, choices by their place, terms by their id. */
export interface Row {
  readonly chart: number;
  readonly order: number;
  readonly values: Readonly<Partial<Record<PlayFieldName, PlayValue>>>;
}

const VOCABULARY = starterVocabulary();

export function termId(code: string): number {
  return VOCABULARY.idOfCode(code);
}

/** Place of a word in the list of a choice field. */
export function choice(name: PlayFieldName, word: string): number {
  const field = playField(name);
  const place = field?.type === 'choice' ? field.choices.findIndex((known) => known === word) : -1;
  if (place < 0) throw new RangeError(`${name} has no choice ${word}`);
  return place;
}

/** @param rows - chart by chart, in order; a play's number in its chart is its order */
export function columnsOfRows(rows: readonly Row[], fields: readonly PlayFieldName[]): PlayColumns {
  const charts = rows.reduce((most, { chart }) => Math.max(most, chart + 1), 0);
  return new PlayColumns({
    charts: Array.from({ length: charts }, (_, chart) => ({ chartId: `c${chart}`, gameId: `g${chart}` })),
    chartIndex: Int32Array.from(rows, ({ chart }) => chart),
    playNumber: Uint16Array.from(rows, ({ order }) => order),
    orderInGame: Uint16Array.from(rows, ({ order }) => order),
    offenseIsHome: new Uint8Array(rows.length).fill(1),
    columns: new Map(fields.map((name) => [name, columnOf(name, rows)])),
  });
}

function columnOf(name: PlayFieldName, rows: readonly Row[]): Column {
  const values = rows.map((row) => row.values[name] ?? null);
  if (playField(name)?.type === 'number') {
    return { values: Int16Array.from(values, (value) => (typeof value === 'number' ? value : UNKNOWN_NUMBER)) };
  }
  const meanings = [...new Set(values.flatMap((value) => value ?? []))];
  const codeOf = new Map(meanings.map((meaning, code) => [meaning, code]));
  if (playField(name)?.type !== 'terms') {
    const codes = values.map((value) => (typeof value === 'number' ? (codeOf.get(value) ?? UNKNOWN_CODE) : -1));
    return { codes: narrow(codes, meanings.length), meanings };
  }
  const starts = new Int32Array(rows.length + 1);
  const codes: number[] = [];
  values.forEach((value, row) => {
    if (value !== null && typeof value !== 'number') codes.push(...value.map((id) => codeOf.get(id) ?? -1));
    starts[row + 1] = codes.length;
  });
  return {
    starts,
    codes: Int16Array.from(codes),
    meanings,
    known: Uint8Array.from(values, (value) => (value === null ? 0 : 1)),
  };
}
