import { createReadStream } from 'node:fs';
import { readFile } from 'node:fs/promises';
import { parse, CsvError } from 'csv-parse';
import { csvSeparator } from '../common/csv-separator.js';
import { isPlainObject } from '../common/merge-patch.js';
import { CommandError } from './run-command.js';

export interface PlayTable {
  readonly header: readonly string[];
  readonly rows: readonly (readonly string[])[];
}

/** Which columns of a header are worth keeping. */
type Used = (header: readonly string[]) => readonly boolean[];

/**
 * The plays of some files as one table; a column that a file does not have is empty on its rows, and so is one that is not
 * used: a sheet with hundreds of columns must not fill the memory.
 *
 * @throws CommandError when a file cannot be read
 */
export async function readPlayFiles(paths: readonly string[], used: Used): Promise<PlayTable> {
  const tables: PlayTable[] = [];
  for (const path of paths) tables.push(await (path.endsWith('.jsonl') ? readJsonLines(path) : readCsv(path, used)));
  const [first] = tables;
  if (first !== undefined && tables.length === 1) return first;
  const header = [...new Set(tables.flatMap((table) => table.header))];
  const rows = tables.flatMap((table) => {
    const places = header.map((name) => table.header.indexOf(name));
    return table.rows.map((row) => places.map((place) => row[place] ?? ''));
  });
  return { header, rows };
}

async function readCsv(path: string, used: Used): Promise<PlayTable> {
  const delimiter = await csvSeparator(path).catch((error: unknown) => {
    throw unreadable(path, error);
  });
  const parser = createReadStream(path)
    .on('error', (error) => parser.destroy(error))
    // A quote inside a cell that is not quoted is a character like any other: many programs write free text so.
    .pipe(parse({ bom: true, delimiter, skip_empty_lines: true, relax_column_count: true, relax_quotes: true }));
  let header: string[] | null = null;
  let isUsed: readonly boolean[] = [];
  const rows: string[][] = [];
  try {
    for await (const cells of parser as AsyncIterable<string[]>) {
      if (header === null) isUsed = used((header = cells));
      else rows.push(header.map((_, column) => (isUsed[column] === true ? (cells[column] ?? '') : '')));
    }
  } catch (error) {
    if (error instanceof CsvError) throw new CommandError(`${path}: row ${Number(error['records']) + 1} is no CSV`);
    throw unreadable(path, error);
  }
  if (header === null) throw new CommandError(`${path}: an empty file`);
  return { header, rows };
}

/** Plays of JSON Lines as the import takes them; games lend their date and the two sides. */
async function readJsonLines(path: string): Promise<PlayTable> {
  const text = await readFile(path, 'utf8').catch((error: unknown) => {
    throw unreadable(path, error);
  });
  const games = new Map<unknown, Readonly<Record<string, unknown>>>();
  const plays: Readonly<Record<string, unknown>>[] = [];
  text.split('\n').forEach((line, at) => {
    if (line.trim() === '') return;
    const record = objectOf(line);
    if (record === null) throw new CommandError(`${path}: line ${at + 1} is no JSON object`);
    if (record['record'] === 'game') games.set(record['reference'], record);
    if (record['record'] === 'play') plays.push(record);
  });
  const skipped = new Set(['record', 'adjustments', 'knownBy', 'note']);
  const names = [...new Set(plays.flatMap((play) => Object.keys(play)))].filter((name) => !skipped.has(name));
  const rows = plays.map((play) => {
    const game = games.get(play['game']);
    const sides = [game?.['home'], game?.['away']].filter((side) => side !== play['offense']);
    return [...names.map((name) => cellOf(play[name])), cellOf(game?.['playedAt']), cellOf(sides[0])];
  });
  return { header: [...names, 'playedAt', 'defense'], rows };
}

function objectOf(line: string): Readonly<Record<string, unknown>> | null {
  try {
    const value: unknown = JSON.parse(line);
    return isPlainObject(value) ? value : null;
  } catch {
    return null;
  }
}

function cellOf(value: unknown): string {
  if (Array.isArray(value)) return value.map((part) => cellOf(part)).join('; ');
  return typeof value === 'string' || typeof value === 'number' ? String(value) : '';
}

function unreadable(path: string, error: unknown): CommandError {
  return new CommandError(`${path} cannot be read: ${error instanceof Error ? error.message : String(error)}`);
}
