import { randomUUID } from 'node:crypto';
import type { Response } from 'express';

const HEADER = 'X-Request-Id';

/** Gives every request an id, tells it to the client, and lets the log and problem details name it. */
export function assignRequestId(response: Response): void {
  response.setHeader(HEADER, randomUUID());
}

/** The id of the request that this answers. */
export function requestId(response: Response): string {
  return response.get(HEADER) ?? '';
}
