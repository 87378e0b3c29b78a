import { createHash } from 'node:crypto';
import { createParamDecorator, type ExecutionContext } from '@nestjs/common';
import type { Request } from 'express';
import { ApiError } from './problems.js';

const LONGEST_KEY = 255;

/** What lets a creation be sent twice and happen once. */
export interface Creation {
  /** Null when the client did not ask for it. */
  readonly idempotencyKey: string | null;
  /** Of method, address and body: a key stands for one request. */
  readonly requestHash: Buffer;
}

/** The creation of a POST request, with its Idempotency-Key. */
export const WithCreation = createParamDecorator((_: unknown, context: ExecutionContext): Creation => {
  const request = context.switchToHttp().getRequest<Request>();
  if (request.headers['content-type'] !== undefined && request.is('application/json') === false) {
    throw new ApiError('request.unsupported_type', 'send application/json');
  }
  const key = request.headers['idempotency-key'];
  if (key === undefined) return { idempotencyKey: null, requestHash: Buffer.alloc(0) };
  if (typeof key !== 'string' || key.length === 0 || key.length > LONGEST_KEY) {
    throw new ApiError('request.invalid', 'the idempotency key cannot be used', {
      errors: [
        { field: 'Idempotency-Key', found: String(key).slice(0, 100), expected: `1 to ${LONGEST_KEY} characters` },
      ],
    });
  }
  const sent = JSON.stringify([request.method, request.path, request.query, request.body]);
  return { idempotencyKey: key, requestHash: createHash('sha256').update(sent).digest() };
});
