import { PLAY_FIELDS } from '#domain/charting/play-fields.js';
import { SHEET_KEYS, squeezeHeader } from '#domain/charting/sheet-mapping.js';
import { ApiError, type FieldProblem } from '../../common/problems.js';

const KNOWN: ReadonlyMap<string, string> = new Map(
  [...SHEET_KEYS, ...PLAY_FIELDS.map((field) => field.name)].map((name) => [squeezeHeader(name), name]),
);

/**
 * The names that a sheet's columns go by.
 *
 * @param required - names that must be among them
 * @throws ApiError `import.refused` with every header that is unknown, doubled or missing
 */
export function readHeader(cells: readonly string[], required: readonly string[]): readonly string[] {
  const problems: FieldProblem[] = [];
  const names = cells.map((cell) => KNOWN.get(squeezeHeader(cell)));
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
