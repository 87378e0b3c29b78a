import { createHash } from 'node:crypto';
import { createParamDecorator, type ExecutionContext } from '@nestjs/common';
import type { Request } from 'express';
import { printed } from './printed.js';
import { ApiError } from './problems.js';

const LONGEST_KEY = 255;

/** What lets a creation be sent twice and happen once. */
export interface Creation {
  /** Null when the client did not ask for it. */
  readonly idempotencyKey: string | null;
  /** Of method, address and body: a key stands for one request. */
  readonly requestHash: Buffer;
}

/** The creation of a POST request with a body of JSON, with its Idempotency-Key. */
export const WithCreation = createParamDecorator((_: unknown, context: ExecutionContext): Creation => {
  const request = context.switchToHttp().getRequest<Request>();
  if (request.headers['content-type'] !== undefined && request.is('application/json') === false) {
    throw new ApiError('request.unsupported_type', 'send application/json');
  }
  return creationOf(idempotencyKeyOf(request), request, request.body);
});

/** The Idempotency-Key alone, where the body is a file whose digest is not known yet; null without one. */
export const WithIdempotencyKey = createParamDecorator((_: unknown, context: ExecutionContext): string | null =>
  idempotencyKeyOf(context.switchToHttp().getRequest<Request>()),
);

/** @param body - whatever of the body tells it from another one, as JSON */
export function creationOf(idempotencyKey: string | null, request: RequestAddress, body: unknown): Creation {
  if (idempotencyKey === null) return { idempotencyKey, requestHash: Buffer.alloc(0) };
  const sent = JSON.stringify([request.method, request.path, request.query, body]);
  return { idempotencyKey, requestHash: createHash('sha256').update(sent).digest() };
}

/** What a request asks for, apart from its body. */
export type RequestAddress = Pick<Request, 'method' | 'path' | 'query'>;

function idempotencyKeyOf({ headers }: Request): string | null {
  const key = headers['idempotency-key'];
  if (key === undefined) return null;
  if (typeof key === 'string' && key.length > 0 && key.length <= LONGEST_KEY) return key;
  throw new ApiError('request.invalid', 'the idempotency key cannot be used', {
    errors: [{ field: 'Idempotency-Key', found: printed(key), expected: `1 to ${LONGEST_KEY} characters` }],
  });
}
