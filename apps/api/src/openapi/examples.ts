import type { OpenAPIObject } from '@nestjs/swagger';
import type { Schema, SchemaObject, Schemas } from './document-types.js';

const BY_FORMAT: Readonly<Record<string, string>> = {
  uuid: '01890a5d-ac96-774b-bcce-b302099a8057',
  date: '2026-03-01',
  'date-time': '2026-03-01T18:00:00Z',
  uri: 'https://film.example/lantern-cup-1',
};

/** Deeper than any of our answers; whatever refers to itself ends here. */
const DEEPEST = 12;

export function schemasOf(document: OpenAPIObject): Schemas {
  return document.components?.schemas ?? {};
}

/** The schema that a reference leads to. */
export function resolved(schema: Schema, schemas: Schemas): SchemaObject {
  if (!('$ref' in schema)) return schema;
  const target = schemas[schema.$ref.slice(schema.$ref.lastIndexOf('/') + 1)];
  return target === undefined ? {} : resolved(target, schemas);
}

/** A value that fits a schema, put together from the examples of its parts, so that no example is written twice. */
export function exampleOf(schema: Schema, schemas: Schemas, depth = 0): unknown {
  const own = resolved(schema, schemas);
  if (own.example !== undefined) return own.example as unknown;
  if (own.default !== undefined) return own.default as unknown;
  if (own.enum !== undefined) return own.enum[0] as unknown;
  const variant = own.anyOf?.[0] ?? own.oneOf?.[0] ?? (own.allOf?.length === 1 ? own.allOf[0] : undefined);
  if (variant !== undefined) return exampleOf(variant, schemas, depth + 1);
  const type: unknown = Array.isArray(own.type) ? own.type[0] : own.type;
  switch (type) {
    case 'array':
      return own.items === undefined || depth > DEEPEST ? [] : [exampleOf(own.items, schemas, depth + 1)];
    case 'object':
      return Object.fromEntries(
        Object.entries(depth > DEEPEST ? {} : (own.properties ?? {})).map(([name, property]) => [
          name,
          exampleOf(property, schemas, depth + 1),
        ]),
      );
    case 'integer':
    case 'number':
      return own.minimum ?? 1;
    case 'boolean':
      return true;
    case 'string':
      return BY_FORMAT[own.format ?? ''] ?? 'text';
    default:
      return null;
  }
}
