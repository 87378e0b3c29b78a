import { createHmac, timingSafeEqual } from 'node:crypto';
import type { CookieOptions, Request, Response } from 'express';
import { ApiError } from '../../common/problems.js';
import { readSecret, type Secret } from '../../database/new-secret.js';

/** Under which the application keeps the address that people reach it by, where its operator said one. */
export const PUBLIC_URL = 'public url';

const NAME = 'roundbook';
/** As long as the database lets a session live. */
const LIFETIME_MS = 30 * 24 * 3_600_000;
const CSRF_HEADER = 'x-csrf-token';
const SAFE_METHODS: ReadonlySet<string> = new Set(['GET', 'HEAD', 'OPTIONS']);

/** Scheme and host by which this very request reached the service. */
export function originOf(request: Request): string {
  const told: unknown = request.app.get(PUBLIC_URL);
  return typeof told === 'string' ? new URL(told).origin : `${request.protocol}://${request.headers.host ?? ''}`;
}

/** A browser takes a cookie of that prefix from this very host over TLS only, never from a neighbour. */
function cookieName(request: Request): string {
  return isSecure(request) ? `__Host-${NAME}` : NAME;
}

/** Whether whoever asks reaches the service over TLS. */
function isSecure(request: Request): boolean {
  return originOf(request).startsWith('https:');
}

/** The token of the request's session, or null without one. */
export function sessionToken(request: Request): Secret | null {
  const name = `${cookieName(request)}=`;
  const cookies = (request.headers.cookie ?? '').split(';').map((cookie) => cookie.trim());
  return readSecret('session', cookies.find((cookie) => cookie.startsWith(name))?.slice(name.length));
}

export function setSessionCookie(request: Request, response: Response, token: Secret): void {
  response
    .cookie(cookieName(request), token.text, { ...cookieOptions(request), maxAge: LIFETIME_MS })
    .setHeader('Cache-Control', 'no-store');
}

export function clearSessionCookie(request: Request, response: Response): void {
  response.clearCookie(cookieName(request), cookieOptions(request)).setHeader('Cache-Control', 'no-store');
}

/** Lax rather than Strict, so that a person who follows a link to a report is signed in there. */
function cookieOptions(request: Request): CookieOptions {
  return { httpOnly: true, sameSite: 'lax', secure: isSecure(request), path: '/' };
}

/**
 * What a page of ours knows and a page of somebody else cannot: made from the session's token, so nothing has to be kept.
 *
 * @see OWASP Cross-Site Request Forgery Prevention cheat sheet, HMAC-based token pattern
 */
export function csrfToken(session: Secret): string {
  return createHmac('sha256', session.text).update('cross-site request forgery').digest('base64url');
}

/** Whether two secrets are the same, in a time that tells nothing of where they differ. */
export function sameSecret(one: string, other: string): boolean {
  const [a, b] = [Buffer.from(one), Buffer.from(other)];
  return a.length === b.length && timingSafeEqual(a, b);
}

/** @throws ApiError `access.cross_site` when a browser says that another site's page sent the request */
export function requireSameSite(request: Request): void {
  if (SAFE_METHODS.has(request.method)) return;
  const site = request.headers['sec-fetch-site'];
  const { origin } = request.headers;
  const foreign = site === undefined ? origin !== undefined && origin !== originOf(request) : site !== 'same-origin';
  if (foreign) throw crossSite('it was sent by the page of another site');
}

/**
 * What a request that a cookie lets in must show before it changes anything, since the browser would send the cookie
 * along for anybody.
 *
 * @param shown - the token, where a form brought it; else it is in the header `X-CSRF-Token`
 * @throws ApiError `access.cross_site`
 */
export function requireOwnPage(request: Request, session: Secret, shown?: string): void {
  if (SAFE_METHODS.has(request.method)) return;
  requireSameSite(request);
  const header = request.headers[CSRF_HEADER];
  const token = shown ?? (typeof header === 'string' ? header : '');
  if (!sameSecret(token, csrfToken(session))) {
    throw crossSite("send the session's csrfToken as X-CSRF-Token with everything that changes something");
  }
}

function crossSite(detail: string): ApiError {
  return new ApiError('access.cross_site', detail);
}
