import { createReadStream } from 'node:fs';
import { parse, CsvError } from 'csv-parse';
import type { PlayValue } from '#domain/charting/play-columns.js';
import { counted } from '#domain/tendencies/words/count-words.js';
import { csvSeparator } from '../../common/csv-separator.js';
import { isPlainObject } from '../../common/merge-patch.js';
import { ApiError } from '../../common/problems.js';
import type { ImportFormat } from './import-format.js';
import type { ProblemList } from './problem-list.js';

/** One row of the file: cells by header for CSV, the object itself for JSON Lines. */
export interface ImportRow {
  /** Counted as a spreadsheet counts: a CSV's header is row 1, a JSON Lines file starts at row 1. */
  readonly row: number;
  readonly record: Readonly<Record<string, unknown>>;
  /** Aligned with PLAY_FIELDS, where a mapping has read the cells already; then the record has only keys. */
  readonly values?: readonly PlayValue[];
  /** Whether `offense` names the player who has not got the ball. */
  readonly offenseIsOther?: boolean;
}

/** Makes a row of the cells that stand under a header. */
export type RowMaker = (row: number, cells: readonly string[]) => ImportRow;

/** No play comes near this; a longer row is a file that has lost its line ends, or one made to hurt. */
const LONGEST_ROW = 64 * 1024;

/**
 * The rows of a spooled file, one at a time.
 *
 * @param header   - called once with a CSV's header cells; says how the rows under it are read
 * @param problems - told of rows that have another number of cells than the header; they are left out
 * @throws ApiError `import.unreadable` with the row, when the file breaks its format and cannot be read any further
 */
export function readRows(
  path: string,
  format: ImportFormat,
  header: (cells: readonly string[]) => RowMaker,
  problems: ProblemList,
): AsyncGenerator<ImportRow> {
  return format === 'csv' ? readCsv(path, header, problems) : readJsonLines(path);
}

async function* readCsv(
  path: string,
  header: (cells: readonly string[]) => RowMaker,
  problems: ProblemList,
): AsyncGenerator<ImportRow> {
  const parser = createReadStream(path).pipe(
    // Rows of any width, so that one of them does not hide what is wrong with the others.
    parse({ bom: true, max_record_size: LONGEST_ROW, skip_empty_lines: true, relax_column_count: true }),
  );
  let row = 0;
  let width = 0;
  let rowOf: RowMaker | null = null;
  try {
    for await (const cells of parser as AsyncIterable<string[]>) {
      row += 1;
      if (rowOf === null) {
        rowOf = header(cells);
        width = cells.length;
      } else if (cells.length === width) {
        yield rowOf(row, cells);
      } else {
        problems.add(row, '', counted(cells.length, 'cell'), `${width}, as the header has`);
      }
    }
  } catch (error) {
    // With other marks between its cells a sheet breaks at its header, or at the first quote that follows such a mark.
    if (row <= 1) await requireCommas(path);
    if (!(error instanceof CsvError)) throw error;
    // The parser reads ahead, so only its error knows how far it had come.
    const expected = 'comma-separated cells, quoted as RFC 4180 says';
    throw unreadable(Number(error['records']) + 1, csvFinding(error), expected);
  }
  if (row === 0) throw unreadable(1, 'an empty file', 'a header, then one row a play');
}

const SEPARATORS = { ';': 'semicolons', '\t': 'tabs' } as const;

async function requireCommas(path: string): Promise<void> {
  const separator = await csvSeparator(path);
  if (separator === ',') return;
  throw unreadable(1, `what seem to be cells with ${SEPARATORS[separator]} between them`, 'commas, as RFC 4180 says');
}

/** Rows whose columns go by these names. */
export function rowsByName(names: readonly string[]): RowMaker {
  return (row, cells) => {
    const record: Record<string, unknown> = {};
    for (let column = 0; column < names.length; column += 1) record[names[column] ?? ''] = cells[column];
    return { row, record };
  };
}

function csvFinding(error: CsvError): string {
  switch (error.code) {
    case 'CSV_QUOTE_NOT_CLOSED':
      return 'a quoted cell that is never closed';
    case 'CSV_MAX_RECORD_SIZE':
      return `more than ${LONGEST_ROW} characters`;
    default:
      return 'a broken quotation';
  }
}

async function* readJsonLines(path: string): AsyncGenerator<ImportRow> {
  let row = 0;
  for await (const line of linesOf(path)) {
    row += 1;
    if (line.length > LONGEST_ROW) throw unreadable(row, `more than ${LONGEST_ROW} characters`, 'one JSON object');
    if (line.trim() === '') continue;
    yield { row, record: parseObject(line, row) };
  }
  if (row === 0) throw unreadable(1, 'an empty file', 'one JSON object a row');
}

/** Lines as they come; a line that grows past what a row may have is handed on at once, so it cannot fill the memory. */
async function* linesOf(path: string): AsyncGenerator<string> {
  let rest = '';
  for await (const chunk of createReadStream(path, { encoding: 'utf8' }) as AsyncIterable<string>) {
    const lines = (rest + chunk).split('\n');
    rest = lines.pop() ?? '';
    yield* lines;
    if (rest.length > LONGEST_ROW) {
      yield rest;
      rest = '';
    }
  }
  if (rest !== '') yield rest;
}

function parseObject(line: string, row: number): Readonly<Record<string, unknown>> {
  let value: unknown;
  try {
    value = JSON.parse(line.startsWith('\uFEFF') ? line.slice(1) : line);
  } catch {
    throw unreadable(row, 'text that is no JSON, or only the beginning of it', 'one JSON object');
  }
  if (!isPlainObject(value)) throw unreadable(row, Array.isArray(value) ? 'an array' : typeof value, 'one JSON object');
  return value;
}

function unreadable(row: number, found: string, expected: string): ApiError {
  return new ApiError(
    'import.unreadable',
    `row ${row}: found ${found}, expected ${expected}; the file is read no further`,
    {
      errors: [{ row, field: '', found, expected }],
    },
  );
}
