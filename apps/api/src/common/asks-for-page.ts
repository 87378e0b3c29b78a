import type { Request } from 'express';

/** Whether a person in a browser asks. Who has no wish, or sends a key, is a program. */
export function asksForPage(request: Request): boolean {
  return request.headers.authorization === undefined && request.accepts(['json', 'html']) === 'html';
}
