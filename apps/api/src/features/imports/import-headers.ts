import { nearNames } from '#domain/charting/near-names.js';
import { PLAY_FIELDS } from '#domain/charting/play-fields.js';
import { useByHeader } from '#domain/charting/sheet-mapping-headers.js';
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
  // Of those that nothing is known of, the first is told all the names there are, and the others of it.
  const unknown = cells.find((cell, column) => names[column] === undefined && likelyName(cell) === null);
  names.forEach((name, column) => {
    const found = cells[column] ?? '';
    if (name === undefined) {
      const expected =
        likelyName(found) ??
        (found === unknown
          ? `one of: ${[...KNOWN.values()].join(', ')}`
          : `one of the names that are expected for ${unknown ?? ''}`);
      problems.push({ row: 1, field: found, found, expected });
    } else if (names.indexOf(name) !== column) {
      problems.push({ row: 1, field: name, found, expected: 'each header once' });
    }
  });
  for (const name of required) {
    if (!names.includes(name)) problems.push({ row: 1, field: name, found: '', expected: `a column ${name}` });
  }
  if (problems.length > 0) {
    throw new ApiError(
      'import.refused',
      'the header does not fit; a sheet that keeps its own headers comes in through a mapping, which ' +
        'POST /v1/sheet-mappings/suggestions proposes',
      { errors: problems, totalErrors: problems.length },
    );
  }
  return names.map((name) => name ?? '');
}

/** What is probably meant by a header that is none of ours: what people usually write so, or a slip. */
function likelyName(header: string): string | null {
  const usual = useByHeader(header)?.to;
  if (usual !== undefined) return `${usual}, if that is what it says`;
  const near = nearNames(KNOWN, squeezeHeader(header));
  return near.length > 0 ? `did you mean ${near.join(' or ')}?` : null;
}
