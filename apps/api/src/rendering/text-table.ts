import { oneLine } from './plain-words.js';
import { wrapped } from './wrapped.js';

const GAP = '  ';

/**
 * A table in plain text, whose cells wrap where they have to.
 *
 * @param headers - one a column
 * @param rows    - rows × columns × lines of the cell
 * @param width   - characters of the whole table at most
 */
export function textTable(
  headers: readonly string[],
  rows: readonly (readonly (readonly string[])[])[],
  width: number,
): string[] {
  const cells = [headers.map((header) => [header]), ...rows.map((row) => row.map((cell) => cell.map(oneLine)))];
  const widths = columnWidths(
    headers.map((_, column) => cells.flatMap((row) => row[column] ?? [])),
    width - GAP.length * (headers.length - 1),
  );
  const printed = cells.map((row) => rowLines(row, widths));
  const rule = widths.map((each) => '-'.repeat(each)).join(GAP);
  return [...(printed[0] ?? []), rule, ...printed.slice(1).flat()];
}

/**
 * As wide as its longest line where that takes no more than an even part of the room. The others hold their longest word and
 * half an even part, as far as that goes, and share the rest by how much they have to say, so that they end at about the
 * same height.
 */
function columnWidths(columns: readonly (readonly string[])[], room: number): number[] {
  const wanted = columns.map((lines) => longest(lines));
  const widths = wanted.map(() => 0);
  const order = [...wanted.keys()].sort((one, other) => (wanted[one] ?? 0) - (wanted[other] ?? 0));
  let left = room;
  while (order[0] !== undefined && (wanted[order[0]] ?? 0) <= left / order.length) {
    widths[order[0]] = wanted[order[0]] ?? 0;
    left -= wanted[order[0]] ?? 0;
    order.shift();
  }
  const even = Math.floor(left / order.length);
  for (const column of order) {
    const word = longest((columns[column] ?? []).flatMap((line) => line.split(' ')));
    widths[column] = Math.min(even, Math.max(word, Math.floor(even / 2)));
    left -= widths[column];
  }
  const missing = order.map((column) => (wanted[column] ?? 0) - (widths[column] ?? 0));
  const total = missing.reduce((sum, each) => sum + each, 0);
  for (const [place, column] of order.entries()) {
    widths[column] = (widths[column] ?? 0) + Math.floor((left * (missing[place] ?? 0)) / total);
  }
  return widths;
}

function longest(texts: readonly string[]): number {
  return texts.reduce((most, { length }) => Math.max(most, length), 1);
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
