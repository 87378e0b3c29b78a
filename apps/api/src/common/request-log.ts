import { Logger } from '@nestjs/common';
import type { NextFunction, Request, Response } from 'express';
import { requestId } from './request-id.js';

const log = new Logger('Request');

/**
 * One line a request: what was asked by the pattern of the route, never by its path, which names people's ids, nor by
 * the query, which may name people. No address, no key, no body.
 */
export function logRequest(request: Request, response: Response, next: NextFunction): void {
  const start = performance.now();
  response.once('close', () => {
    log.log({
      requestId: requestId(response),
      method: request.method,
      route: routeOf(request),
      status: response.statusCode,
      elapsedMs: Math.round((performance.now() - start) * 10) / 10,
      // A client that left before the answer was complete.
      aborted: !response.writableFinished,
    });
  });
  next();
}

function routeOf(request: Request): string {
  const route: unknown = request.route;
  if (typeof route !== 'object' || route === null || !('path' in route)) return 'none';
  return String(route.path);
}
