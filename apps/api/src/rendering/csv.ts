/** A cell: a number as it stands, a text that may hold anything, or nothing. */
export type CsvCell = string | number | null;

// A spreadsheet takes a cell that begins so for a formula, which may then call out.
const FORMULA = /^[=+\-@\t\r]/;

/**
 * Rows as CSV. Texts that a spreadsheet would run as a formula get a leading apostrophe; numbers stay numbers.
 *
 * @see RFC 4180, section 2
 */
export function csv(rows: readonly (readonly CsvCell[])[]): string {
  return rows.map((row) => `${row.map(cellText).join(',')}\r\n`).join('');
}

/** A sheet's columns: what stands above each, and what a row has in it. */
export type CsvColumns<Row> = readonly (readonly [name: string, cell: (row: Row) => CsvCell])[];

/** A head and a line for each row. */
export function csvOf<Row>(columns: CsvColumns<Row>, rows: readonly Row[]): string {
  return csv([columns.map(([name]) => name), ...rows.map((row) => columns.map(([, cell]) => cell(row)))]);
}

function cellText(cell: CsvCell): string {
  if (cell === null) return '';
  if (typeof cell === 'number') return `${cell}`;
  const harmless = FORMULA.test(cell) ? `'${cell}` : cell;
  return /[",\r\n]/.test(harmless) ? `"${harmless.replaceAll('"', '""')}"` : harmless;
}
