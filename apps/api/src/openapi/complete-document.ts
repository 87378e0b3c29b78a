import type { OpenAPIObject } from '@nestjs/swagger';
import { PROBLEMS } from '../common/problems.js';
import type { Right } from '../common/rights.js';
import { RIGHT_EXTENSION, usualRight } from '../features/access/needs.js';
import { patchName } from '../common/resource.decorators.js';
import type { Content, Operation, Schema, SchemaObject, Schemas } from './document-types.js';
import { exampleOf, resolved, schemasOf } from './examples.js';

const METHODS = ['get', 'put', 'post', 'delete', 'patch'] as const;

/** What a person's file looks like, where a body is a file. */
const FILES: Readonly<Record<string, string>> = {
  'text/csv': 'game,order,offense,playType,down,distance\nlantern-cup-r1-p3,1,Mossback,scrimmage,1,10\n',
  'application/x-ndjson': '{"record":"player","handle":"Mossback"}\n',
};

const PROBLEM: SchemaObject = {
  type: 'object',
  description: 'Problem details (RFC 9457)',
  required: ['title', 'status', 'code', 'instance', 'requestId'],
  properties: {
    type: { type: 'string', example: 'urn:roundbook:problem:resource.not_found' },
    title: { type: 'string', example: PROBLEMS['resource.not_found'].title },
    status: { type: 'integer', example: 404 },
    code: { type: 'string', example: 'resource.not_found', description: 'stable; listed in the reference of errors' },
    detail: { type: 'string', example: 'no player has this id' },
    instance: { type: 'string', example: '/v1/players/01890a5d-ac96-774b-bcce-b302099a8057' },
    requestId: { type: 'string', example: '01890a5d-ac96-774b-bcce-b302099a8060' },
    errors: {
      type: 'array',
      items: {
        type: 'object',
        required: ['field', 'found', 'expected'],
        properties: {
          row: { type: 'integer', description: 'of a file, counted as a spreadsheet counts' },
          field: { type: 'string' },
          found: { type: 'string' },
          expected: { type: 'string' },
        },
      },
      example: [],
    },
    totalErrors: { type: 'integer', example: 0, description: 'all of them, also those beyond the listed ones' },
  },
};

/**
 * What the framework's description leaves out: schemas of changes, problems, an example for each operation, and that
 * unknown fields are refused.
 */
export function completeDocument(document: OpenAPIObject): OpenAPIObject {
  const schemas = schemasOf(document);
  document.servers = [{ url: '/', description: 'this service' }];
  document.components = {
    ...document.components,
    schemas,
    responses: {
      ...document.components?.responses,
      Problem: {
        description: 'what was wrong, by code',
        content: {
          'application/problem+json': { schema: { $ref: '#/components/schemas/Problem' } },
          'text/html': { schema: { type: 'string', description: 'for a browser that brings no key' } },
        },
      },
    },
  };
  schemas['Problem'] = PROBLEM;
  for (const item of Object.values(document.paths)) {
    for (const method of METHODS) {
      const operation = item[method];
      if (operation !== undefined) completeOperation(operation, method, schemas);
    }
  }
  const problem = document.components.responses?.['Problem'];
  if (problem !== undefined && !('$ref' in problem)) addExamples(problem.content ?? {}, schemas);
  return document;
}

function completeOperation(operation: Operation, method: string, schemas: Schemas): void {
  // Open to everybody on purpose, and said so.
  operation.security ??= [];
  addAccess(operation, method);
  operation.responses['4XX'] ??= { $ref: '#/components/responses/Problem' };
  operation.responses['5XX'] ??= { $ref: '#/components/responses/Problem' };
  const { requestBody } = operation;
  if (requestBody !== undefined && !('$ref' in requestBody)) {
    for (const { schema } of Object.values(requestBody.content)) {
      if (schema === undefined) continue;
      addPatchSchema(schema, schemas);
      refuseUnknownFields(schema, schemas);
    }
    addExamples(requestBody.content, schemas);
  }
  for (const response of Object.values(operation.responses)) {
    if (response !== undefined && !('$ref' in response)) addExamples(response.content ?? {}, schemas);
  }
}

/** Where a key lets in, a session does too; and the right that is needed is said even where it is the usual one. */
function addAccess(operation: Operation, method: string): void {
  const { security = [] } = operation;
  if (!security.some((scheme) => 'bearer' in scheme)) return;
  operation.security = [...security, { cookie: [] }];
  const told = operation as Operation & Record<typeof RIGHT_EXTENSION, Right | undefined>;
  told[RIGHT_EXTENSION] ??= usualRight(method);
}

/** The schema of a change (RFC 7396): nothing is required, and null takes a member away. */
function addPatchSchema(schema: Schema, schemas: Schemas): void {
  if (!('$ref' in schema)) return;
  const name = schema.$ref.slice(schema.$ref.lastIndexOf('/') + 1);
  const base = Object.keys(schemas).find((candidate) => patchName(candidate) === name);
  if (base === undefined || schemas[name] !== undefined) return;
  const { properties = {} } = resolved(schemas[base] ?? {}, schemas);
  schemas[name] = {
    type: 'object',
    description: 'JSON merge patch (RFC 7396): only what is to change; null takes it away',
    properties: Object.fromEntries(Object.entries(properties).map(([key, property]) => [key, orNull(property)])),
  };
}

function orNull(schema: Schema): Schema {
  if ('$ref' in schema) return { anyOf: [schema, NULL] };
  const own = { ...schema };
  delete own.default;
  if (own.anyOf !== undefined) return { ...own, anyOf: own.anyOf.some(isNull) ? own.anyOf : [...own.anyOf, NULL] };
  if (own.type === undefined) return own;
  const types = [own.type].flat();
  const withNull = types.includes('null') ? types : [...types, 'null'];
  const choices = own.enum === undefined || own.enum.includes(null) ? own.enum : [...(own.enum as unknown[]), null];
  // The types of the framework know one type a schema; version 3.1 allows several.
  return Object.assign({ ...own }, { type: withNull }, choices === undefined ? {} : { enum: choices });
}

const NULL = { type: 'null' } as const;

function isNull(schema: Schema): boolean {
  return !('$ref' in schema) && schema.type === 'null';
}

function refuseUnknownFields(schema: Schema, schemas: Schemas): void {
  const own = resolved(schema, schemas);
  for (const variant of [...(own.anyOf ?? []), ...(own.allOf ?? [])]) refuseUnknownFields(variant, schemas);
  if (own.items !== undefined) refuseUnknownFields(own.items, schemas);
  if (own.properties === undefined || own.additionalProperties !== undefined) return;
  own.additionalProperties = false;
  for (const property of Object.values(own.properties)) refuseUnknownFields(property, schemas);
}

function addExamples(content: Content, schemas: Schemas): void {
  for (const [type, media] of Object.entries(content)) {
    if (media.example !== undefined || media.examples !== undefined || media.schema === undefined) continue;
    media.example = FILES[type] ?? exampleOf(media.schema, schemas);
  }
}
