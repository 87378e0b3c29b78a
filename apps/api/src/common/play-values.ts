import type { PlayValue } from '#domain/charting/play-columns.js';
import { columnName, PLAY_FIELDS, type PlayField } from '#domain/charting/play-fields.js';

/** Columns of table `play` that hold the fields of the catalogue, in its order. */
export const VALUE_COLUMNS: readonly string[] = PLAY_FIELDS.map((field) => columnName(field.name));

/** A row of table `play` by its columns. */
export type PlayColumnsRow = Readonly<Record<string, unknown>>;

/** What a row holds, aligned with PLAY_FIELDS: choices by their place, terms by id. */
export function valuesOfRow(row: PlayColumnsRow): PlayValue[] {
  return PLAY_FIELDS.map((field, place) => fromColumn(field, row[VALUE_COLUMNS[place] ?? '']));
}

function fromColumn(field: PlayField, stored: unknown): PlayValue {
  if (field.type === 'choice') return typeof stored === 'string' ? field.choices.indexOf(stored) : null;
  if (field.type === 'terms') return Array.isArray(stored) ? stored.map(Number) : null;
  return typeof stored === 'number' ? stored : null;
}

/** The same the other way round: what the columns of a row take. */
export function columnValues(values: readonly PlayValue[]): unknown[] {
  return PLAY_FIELDS.map((field: PlayField, place) => {
    const value = values[place] ?? null;
    return field.type === 'choice' && typeof value === 'number' ? (field.choices[value] ?? null) : value;
  });
}

/** The row that those columns make. */
export function rowOfValues(values: readonly PlayValue[]): PlayColumnsRow {
  const stored = columnValues(values);
  return Object.fromEntries(VALUE_COLUMNS.map((column, place) => [column, stored[place]]));
}
