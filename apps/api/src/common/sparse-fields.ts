import 'reflect-metadata';
import type { Type } from '@nestjs/common';
import { printed } from './printed.js';
import { ApiError } from './problems.js';

/** Where the documentation keeps the names of a response's fields, each with a colon before it. */
const DOCUMENTED = 'swagger/apiModelPropertiesArray';

/** The fields that a response has, by the same list that documents it. */
export function documentedFields(type: Type): ReadonlySet<string> {
  const names: unknown = Reflect.getMetadata(DOCUMENTED, type.prototype as object);
  return new Set(Array.isArray(names) ? names.map((name) => String(name).slice(1)) : []);
}

/**
 * Which fields a request asks for.
 *
 * @param asked - the query parameter `fields`: names with commas between
 * @returns null for all of them
 * @throws ApiError `request.invalid` for a field that the response does not have
 */
export function wantedFields(asked: unknown, known: ReadonlySet<string>): readonly string[] | null {
  if (asked === undefined) return null;
  const wanted = (typeof asked === 'string' ? asked : '').split(',');
  const unknown = wanted.filter((name) => !known.has(name));
  if (unknown.length === 0) return wanted;
  throw new ApiError('request.invalid', 'some fields do not exist', {
    errors: unknown.map((found) => ({
      field: 'fields',
      found: printed(found),
      expected: `any of: ${[...known].join(', ')}`,
    })),
  });
}

/** Only the wanted fields of a row, in the row's own order. */
export function sparse(row: object, wanted: readonly string[] | null): object {
  if (wanted === null) return row;
  return Object.fromEntries(Object.entries(row).filter(([name]) => wanted.includes(name)));
}
