import { hash } from 'node:crypto';
import type { NextFunction, Request, RequestHandler, Response } from 'express';
import { RateLimiterMemory, RateLimiterRes } from 'rate-limiter-flexible';
import type { Settings } from '../config/settings.js';
import { sessionToken } from '../features/access/session-cookie.js';
import { ApiError } from './problems.js';

const TOKEN = /^Bearer +(\S+)$/i;
/** More credentials than are in use within one window. */
const MOST_KNOWN = 10_000;

/** How often one key, or one address without a key that works, may ask within a window. */
interface Quota {
  /** As the header fields name the policy. */
  readonly name: 'key' | 'address';
  readonly limiter: RateLimiterMemory;
  readonly policy: string;
}

/**
 * Counts requests before anything else is done for them, in the memory of this process: by the key that they bring, and
 * by address for those without one. A key that was not let in here before counts for the address too, so that whoever
 * tries one invented key after the other is stopped before the database is asked again.
 *
 * @returns null when nothing is limited
 * @see draft-ietf-httpapi-ratelimit-headers-10 (`RateLimit-Policy`, `RateLimit`); RFC 6585, section 4 (429);
 *   RFC 9110, section 10.2.3 (`Retry-After`)
 */
export function rateLimit(settings: Settings): RequestHandler | null {
  if (settings.rateLimitRequests === 0) return null;
  const windowSeconds = settings.rateLimitWindowSeconds;
  const ofKey = quota('key', settings.rateLimitRequests, windowSeconds);
  const ofAddress = quota('address', settings.rateLimitAddressRequests, windowSeconds);
  const letIn = new Set<string>();

  const count = async (request: Request, response: Response): Promise<void> => {
    const credential = credentialOf(request);
    // The address first: an address that has used its quota up must not fill the memory with invented keys.
    if (credential === null || !letIn.has(credential)) await take(ofAddress, request.ip ?? '', response);
    if (credential === null) return;
    await take(ofKey, credential, response);
    response.once('finish', () => {
      if (response.statusCode === 401) letIn.delete(credential);
      else if (!letIn.has(credential)) {
        if (letIn.size >= MOST_KNOWN) letIn.clear();
        letIn.add(credential);
      }
    });
  };

  return (request: Request, response: Response, next: NextFunction) => {
    count(request, response).then(() => {
      next();
    }, next);
  };
}

function quota(name: Quota['name'], points: number, windowSeconds: number): Quota {
  return {
    name,
    limiter: new RateLimiterMemory({ keyPrefix: name, points, duration: windowSeconds }),
    policy: `"${name}";q=${points};w=${windowSeconds}`,
  };
}

/** @throws ApiError `request.too_many` with the headers of the refusal set */
async function take({ name, limiter, policy }: Quota, by: string, response: Response): Promise<void> {
  const tell = ({ remainingPoints, msBeforeNext }: RateLimiterRes): number => {
    const seconds = Math.max(1, Math.ceil(msBeforeNext / 1000));
    response
      .setHeader('RateLimit-Policy', policy)
      .setHeader('RateLimit', `"${name}";r=${remainingPoints};t=${seconds}`);
    return seconds;
  };
  try {
    tell(await limiter.consume(by));
  } catch (refused) {
    if (!(refused instanceof RateLimiterRes)) throw refused;
    const retryAfterSeconds = tell(refused);
    throw new ApiError('request.too_many', `ask again in ${retryAfterSeconds} s`, { retryAfterSeconds });
  }
}

/** Of a key or a session, never itself, only its digest. */
function credentialOf(request: Request): string | null {
  const token = TOKEN.exec(request.headers.authorization ?? '')?.[1] ?? sessionToken(request)?.text;
  return token === undefined ? null : hash('sha256', token, 'base64');
}
