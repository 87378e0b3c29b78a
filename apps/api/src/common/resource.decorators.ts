import { applyDecorators, Delete, Get, HttpCode, Patch, Post, UseGuards, type Type } from '@nestjs/common';
import {
  ApiBody,
  ApiConsumes,
  ApiCreatedResponse,
  ApiExtraModels,
  ApiHeader,
  ApiNoContentResponse,
  ApiOkResponse,
  ApiOperation,
  ApiQuery,
  ApiResponse,
  getSchemaPath,
} from '@nestjs/swagger';
import { PATCH_TYPES } from './change.js';
import { CreatedAnswer, OneAnswer, PageAnswer } from './resource.answers.js';

/**
 * The routes of a resource, each with its conventions and their documentation in one word, so that twelve resources do
 * not describe them twelve times.
 */

const ETAG = {
  ETag: { description: 'strong; names what was read, for If-Match', schema: { type: 'string' } },
} as const;
const LOCATION = { Location: { description: 'address of what was made', schema: { type: 'string' } } } as const;
const LINK = {
  Link: { description: 'the next page as rel="next" (RFC 8288); absent on the last', schema: { type: 'string' } },
} as const;

const SPARSE = ApiQuery({
  name: 'fields',
  required: false,
  type: String,
  description: 'only these fields, with commas between',
});
const IF_NONE_MATCH = ApiHeader({
  name: 'If-None-Match',
  required: false,
  description: 'the ETag of what you have; answered 304 when it is still that',
});

/** `GET` of one. */
export function ReadsOne(path: string, type: Type, summary: string): MethodDecorator {
  return applyDecorators(
    Get(path),
    ApiOperation({ summary }),
    SPARSE,
    IF_NONE_MATCH,
    ApiOkResponse({ type, headers: ETAG }),
    ApiResponse({ status: 304, description: 'still what the client has' }),
    UseGuards(new OneAnswer(type)),
  );
}

/** `GET` of a page of a list. */
export function ReadsPage(path: string, page: Type, item: Type, summary: string): MethodDecorator {
  return applyDecorators(
    Get(path),
    ApiOperation({ summary }),
    ApiOkResponse({ type: page, headers: LINK }),
    ApiResponse({ status: 304, description: 'still what the client has' }),
    UseGuards(new PageAnswer(item)),
  );
}

export interface CreationOptions {
  /** Name of the field that ends the address of what was made. */
  readonly key?: string;
  /** The list that it can be read under, where that is not the address it was sent to. */
  readonly under?: string;
}

/** `POST` that makes one. */
export function Creates(path: string, type: Type, summary: string, options: CreationOptions = {}): MethodDecorator {
  return applyDecorators(
    Post(path),
    ApiOperation({ summary }),
    IDEMPOTENCY_KEY,
    ApiCreatedResponse({ type, headers: { ...LOCATION, ...ETAG } }),
    UseGuards(new CreatedAnswer(options.key ?? 'id', options.under ?? null)),
  );
}

export const IDEMPOTENCY_KEY = ApiHeader({
  name: 'Idempotency-Key',
  required: false,
  description: 'any text of your own: the same request sent again with it is answered as the first, and done once',
});

export const IF_MATCH = ApiHeader({
  name: 'If-Match',
  required: true,
  description: 'the ETag of what you read: nothing is done to what has become something else since',
});

/** Name of the schema of a change, which the documentation derives from the input's: nothing required, all nullable. */
export function patchName(input: string): string {
  return `${input}Patch`;
}

/** `PATCH` of one. */
export function Changes(path: string, input: Type, type: Type, summary: string): MethodDecorator {
  return applyDecorators(
    Patch(path),
    ApiOperation({ summary }),
    ApiConsumes(...PATCH_TYPES),
    ApiExtraModels(input),
    ApiBody({ schema: { $ref: patchName(getSchemaPath(input)) } }),
    IF_MATCH,
    ApiOkResponse({ type, headers: ETAG }),
    UseGuards(new OneAnswer(type)),
  );
}

/** `DELETE` of one. */
export function Removes(path: string, summary: string): MethodDecorator {
  return applyDecorators(
    Delete(path),
    HttpCode(204),
    ApiOperation({ summary }),
    IF_MATCH,
    ApiNoContentResponse({ description: 'it is gone' }),
  );
}
