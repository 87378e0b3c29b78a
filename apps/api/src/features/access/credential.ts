import { createParamDecorator, type ExecutionContext } from '@nestjs/common';
import type { Request, Response } from 'express';
import { ApiError } from '../../common/problems.js';
import type { Right } from '../../common/rights.js';
import type { Asker } from '../../database/cancel-when-gone.js';
import { readSecret } from '../../database/new-secret.js';
import { neededRight } from './needs.js';
import { requireOwnPage, sessionToken } from './session-cookie.js';

/** What a request shows to be let in: never the key or token itself, only its digest. */
export interface Credential {
  readonly keyHash: Buffer;
  readonly needs: Right;
  /** Tells when the client leaves before it has its answer. */
  readonly asker?: Asker;
}

const BEARER = /^Bearer +(\S+)$/i;

/** The credential of the request; refuses a request without one before anything else is looked at. */
export const WithCredential = createParamDecorator((_: unknown, context: ExecutionContext): Credential => {
  const http = context.switchToHttp();
  const request = http.getRequest<Request>();
  const needs = neededRight(context, request.method);
  return { keyHash: digestIn(request), needs, asker: http.getResponse<Response>() };
});

/** A key goes before a session: a program that sends one means it. */
function digestIn(request: Request): Buffer {
  const header = request.headers.authorization;
  if (header === undefined) {
    const session = sessionToken(request);
    if (session === null) {
      throw new ApiError('access.key_missing', 'sign in, or send your key as: Authorization: Bearer rbk_...');
    }
    requireOwnPage(request, session);
    return session.digest;
  }
  const key = readSecret('key', BEARER.exec(header)?.[1]);
  if (key === null) throw new ApiError('access.key_refused', 'that is not the form of an API key');
  return key.digest;
}
