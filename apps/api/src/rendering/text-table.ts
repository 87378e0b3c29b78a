import { oneLine } from './plain-words.js';
import { wrapped } from './wrapped.js';

const GAP = '  ';

/**
 * A table in plain text. The last column takes what room is left and wraps; the others are as wide as their widest
 * cell, at most a third of the whole.
 *
 * @param headers - one a column
 * @param rows    - rows × columns × lines of the cell
 * @param width   - characters of the whole table
 */
export function textTable(
  headers: readonly string[],
  rows: readonly (readonly (readonly string[])[])[],
  width: number,
): string[] {
  const cells = [headers.map((header) => [header]), ...rows.map((row) => row.map((cell) => cell.map(oneLine)))];
  const last = headers.length - 1;
  const widths = headers.map((_, column) =>
    Math.min(
      Math.floor(width / 3),
      Math.max(...cells.flatMap((row) => (row[column] ?? []).map((line) => line.length))),
    ),
  );
  widths[last] = width - widths.slice(0, last).reduce((sum, each) => sum + each + GAP.length, 0);

  const printed = cells.map((row) => rowLines(row, widths));
  const rule = widths.map((each) => '-'.repeat(each)).join(GAP);
  return [...(printed[0] ?? []), rule, ...printed.slice(1).flat()];
}

function rowLines(row: readonly (readonly string[])[], widths: readonly number[]): string[] {
  const columns = row.map((cell, column) => cell.flatMap((line) => wrapped(line, widths[column] ?? 1)));
  const height = Math.max(1, ...columns.map((lines) => lines.length));
  return Array.from({ length: height }, (_, line) =>
    columns
      .map((lines, column) => (lines[line] ?? '').padEnd(widths[column] ?? 0))
      .join(GAP)
      .trimEnd(),
  );
}
