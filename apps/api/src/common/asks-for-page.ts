import type { Request } from 'express';

/** Whether whoever asks would rather read a page, as browsers say they would; who has no wish is a program. */
export function asksForPage(request: Request): boolean {
  return request.accepts(['json', 'html']) === 'html';
}
