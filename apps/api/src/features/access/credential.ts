import { createParamDecorator, type ExecutionContext } from '@nestjs/common';
import type { Request, Response } from 'express';
import { ApiError } from '../../common/problems.js';
import { hashKey } from '../../database/hash-key.js';

/** What a request shows to be let in: never the key itself, only its digest. */
export interface Credential {
  readonly keyHash: Buffer;
  /** Aborted when the client leaves before it has its answer. */
  readonly gone?: AbortSignal;
}

const BEARER = /^Bearer +(rbk_[A-Za-z0-9_-]{43})$/i;

/** The credential of the request; refuses a request without one before anything else is looked at. */
export const WithCredential = createParamDecorator((_: unknown, context: ExecutionContext): Credential => {
  const header = context.switchToHttp().getRequest<Request>().headers.authorization;
  if (header === undefined) {
    throw new ApiError('access.key_missing', 'send your key as: Authorization: Bearer rbk_...');
  }
  const key = BEARER.exec(header)?.[1];
  if (key === undefined) throw new ApiError('access.key_refused', 'that is not the form of an API key');
  return { keyHash: hashKey(key), gone: goneSignal(context.switchToHttp().getResponse<Response>()) };
});

function goneSignal(response: Response): AbortSignal {
  const controller = new AbortController();
  response.once('close', () => {
    if (!response.writableFinished) controller.abort();
  });
  return controller.signal;
}
