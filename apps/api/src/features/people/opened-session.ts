import type { Request, Response } from 'express';
import { setSessionCookie } from '../access/session-cookie.js';
import type { SessionResponse } from './people.dto.js';
import type { OpenedSession } from './people.service.js';

export function withCookie(request: Request, response: Response, { token, session }: OpenedSession): SessionResponse {
  setSessionCookie(request, response, token);
  return session;
}
