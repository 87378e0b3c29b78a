import { createParamDecorator, type ExecutionContext } from '@nestjs/common';
import type { Request } from 'express';
import { ApiError } from '../../common/problems.js';
import type { Secret } from '../../database/new-secret.js';
import { requireOwnPage, sessionToken } from './session-cookie.js';

/** The session of the person who asks; what concerns a person rather than a clan is not for keys. */
export const WithSession = createParamDecorator((_: unknown, context: ExecutionContext): Secret => {
  const request = context.switchToHttp().getRequest<Request>();
  if (request.headers.authorization !== undefined) {
    throw new ApiError('access.person_needed', 'a key stands for no person; sign in');
  }
  const session = sessionToken(request);
  if (session === null) throw new ApiError('access.key_missing', 'sign in first');
  requireOwnPage(request, session);
  return session;
});
