import type { Request } from 'express';

/** Where somebody signs in from. */
export interface SignInPlace {
  /** As the browser called itself. */
  readonly browser: string | null;
  readonly address: string;
}

export function placeOf(request: Request): SignInPlace {
  return { browser: request.headers['user-agent'] ?? null, address: request.ip ?? '' };
}
