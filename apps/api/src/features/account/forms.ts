import type { Request } from 'express';

/** What a form sent, as texts: a browser sends nothing else. */
export function formOf(request: Request): Readonly<Record<string, string>> {
  const body: unknown = request.body;
  if (typeof body !== 'object' || body === null) return {};
  return Object.fromEntries(
    Object.entries(body).filter((entry): entry is [string, string] => typeof entry[1] === 'string'),
  );
}

/** All values of a name that a form may send several times, as its checked boxes. */
export function valuesOf(request: Request, name: string): string[] {
  const body: unknown = request.body;
  if (typeof body !== 'object' || body === null) return [];
  const value: unknown = Object.entries(body).find(([key]) => key === name)?.[1];
  return [value].flat().filter((each): each is string => typeof each === 'string');
}

/** Only these fields, and of them only what was filled in. */
export function filled(form: Readonly<Record<string, string>>, ...names: readonly string[]): Record<string, string> {
  return Object.fromEntries(
    Object.entries(form).filter(([name, value]) => names.includes(name) && value.trim() !== ''),
  );
}

/** A page of this very service: one that began with two slashes would be another site's. */
const OWN_PAGE = /^\/v1(\/[\w-]+)+$/;

/** Where whoever signs in was going, as the address or the form says; null for anywhere but a page of ours. */
export function nextOf(request: Request): string | null {
  const next: unknown = formOf(request)['next'] ?? request.query['next'];
  return typeof next === 'string' && OWN_PAGE.test(next) ? next : null;
}
