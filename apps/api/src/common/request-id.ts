import type { NextFunction, Request, Response } from 'express';
import { uuidv7 } from 'uuidv7';

const HEADER = 'X-Request-Id';
const ids = new WeakMap<Request, string>();

/** Gives every request an id, tells it to the client, and lets the log and problem details name it. */
export function assignRequestId(request: Request, response: Response, next: NextFunction): void {
  const id = uuidv7();
  ids.set(request, id);
  response.setHeader(HEADER, id);
  next();
}

export function requestId(request: Request): string {
  return ids.get(request) ?? '';
}
