import { PLAY_FIELDS } from '#domain/charting/play-fields.js';
import { ApiError, type FieldProblem } from '../../common/problems.js';

/** Columns of a sheet of plays that are no fields of the catalogue. */
export const PLAY_KEYS = ['game', 'chart', 'order', 'offense', 'note'] as const;

const KNOWN: ReadonlyMap<string, string> = new Map(
  [...PLAY_KEYS, ...PLAY_FIELDS.map((field) => field.name)].map((name) => [squeeze(name), name]),
);

/** "Yards to goal", "yards_to_goal" and "yardsToGoal" are the same header. */
function squeeze(header: string): string {
  return header
    .normalize('NFKD')
    .replace(/[^\p{Letter}\p{Number}]/gu, '')
    .toLowerCase();
}

/**
 * The names that a sheet's columns go by.
 *
 * @param required - names that must be among them
 * @throws ApiError `import.refused` with every header that is unknown, doubled or missing
 */
export function readHeader(cells: readonly string[], required: readonly string[]): readonly string[] {
  const problems: FieldProblem[] = [];
  const names = cells.map((cell) => KNOWN.get(squeeze(cell)));
  names.forEach((name, column) => {
    const found = cells[column] ?? '';
    if (name === undefined) {
      problems.push({ row: 1, field: found, found, expected: `one of: ${[...KNOWN.values()].join(', ')}` });
    } else if (names.indexOf(name) !== column) {
      problems.push({ row: 1, field: name, found, expected: 'each header once' });
    }
  });
  for (const name of required) {
    if (!names.includes(name)) problems.push({ row: 1, field: name, found: '', expected: `a column ${name}` });
  }
  if (problems.length > 0) {
    throw new ApiError('import.refused', 'the header does not fit', { errors: problems, totalErrors: problems.length });
  }
  return names.map((name) => name ?? '');
}
