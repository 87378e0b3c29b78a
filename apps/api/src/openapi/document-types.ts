import type { OpenAPIObject } from '@nestjs/swagger';

/** The parts of the document, taken from its type since the framework does not export their own. */
type Components = NonNullable<OpenAPIObject['components']>;
export type Schemas = NonNullable<Components['schemas']>;
export type Schema = Schemas[string];
export type SchemaObject = Exclude<Schema, { $ref: string }>;
export type Operation = NonNullable<OpenAPIObject['paths'][string]['get']>;
type Body = Exclude<NonNullable<Operation['requestBody']>, { $ref: string }>;
export type Content = Body['content'];
