import { applyDecorators, Get, type Type } from '@nestjs/common';
import {
  ApiExtraModels,
  ApiHeader,
  ApiOkResponse,
  ApiOperation,
  ApiResponse,
  getSchemaPath,
  type ApiResponseOptions,
} from '@nestjs/swagger';
import type { Response } from 'express';
import type { PageFrame } from '../rendering/page/page.js';
import { etagOf, matchesTag } from './etag.js';
import { negotiated } from './page-policy.js';

/** What figures can be had as. */
export const FIGURE_TYPES = ['application/json', 'text/csv'] as const;
export type FigureType = (typeof FIGURE_TYPES)[number];

/** An answer as it is sent, and the tag of everything that it was computed from. */
export interface TaggedAnswer {
  readonly etag: string;
  /** Null when the client has this very answer already; bytes, so that a kept one is sent as it is. */
  readonly body: Buffer | null;
}

/** An answer that is named by what it says, since it was computed anyway. */
export function taggedBy(answer: object, heldTag: string | undefined): TaggedAnswer {
  const etag = etagOf(answer);
  return {
    etag,
    body: heldTag !== undefined && matchesTag(heldTag, etag) ? null : Buffer.from(JSON.stringify(answer)),
  };
}

export function sendTagged(response: Response, { etag, body }: TaggedAnswer, type = 'application/json'): void {
  response.setHeader('ETag', etag).setHeader('Cache-Control', 'private, no-cache');
  if (body === null) response.status(304).end();
  else response.type(type).send(body);
}

/** Answers of a figure in each type that it can be had as: texts, and pages under their own policy. */
export function sendReadable(response: Response, answer: TaggedAnswer, type: string, frame: PageFrame): void {
  sendTagged(response, answer, negotiated(response, type, frame));
}

const IF_NONE_MATCH = ApiHeader({
  name: 'If-None-Match',
  required: false,
  description: 'the ETag of what you have; answered 304 when it is still that',
});
const STILL = ApiResponse({ status: 304, description: 'still what the client has' });

/** `GET` of an answer that is computed and tagged by what it says (`taggedBy`). */
export function ReadsComputed(path: string, type: Type, summary: string): MethodDecorator {
  return applyDecorators(
    Get(path),
    ApiOperation({ summary }),
    IF_NONE_MATCH,
    ApiOkResponse({ type, headers: { ETag: { description: 'names the answer', schema: { type: 'string' } } } }),
    STILL,
  );
}

export type ReadableContent = NonNullable<Extract<ApiResponseOptions, { content?: unknown }>['content']>;

const FIGURES_TAG = { ETag: { description: 'names every input of the figures', schema: { type: 'string' as const } } };

/**
 * `GET` of figures that are computed: tagged by what went in, and kept until that changes.
 *
 * @param example - where the fields' own do not add up to one
 */
export function ReadsFigures(type: Type, summary: string, example?: object): MethodDecorator {
  return applyDecorators(
    Get(),
    ApiOperation({ summary }),
    IF_NONE_MATCH,
    ApiOkResponse({
      type,
      ...(example === undefined ? {} : { example }),
      headers: FIGURES_TAG,
    }),
    STILL,
  );
}

/** `GET` of an answer in several media types, tagged and kept as figures are. */
export function ReadsReadable(summary: string, description: string, content: ReadableContent): MethodDecorator {
  return applyDecorators(
    Get(),
    ApiOperation({ summary }),
    IF_NONE_MATCH,
    ApiOkResponse({ description, headers: FIGURES_TAG, content }),
    STILL,
  );
}

/** The same figures as JSON, or as a sheet where `Accept` asks for one. */
export function ReadsFiguresOrSheet(type: Type, summary: string, example: object, sheet: string): MethodDecorator {
  return applyDecorators(
    Get(),
    ApiOperation({ summary }),
    IF_NONE_MATCH,
    ApiExtraModels(type),
    ApiOkResponse({
      description: 'the figures; as CSV one line each, texts that a spreadsheet would run made harmless',
      headers: FIGURES_TAG,
      content: {
        'application/json': { schema: { $ref: getSchemaPath(type) }, example },
        'text/csv': { schema: { type: 'string' }, example: sheet },
      },
    }),
    STILL,
  );
}
