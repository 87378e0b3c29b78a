import { hash } from 'node:crypto';

const KEPT_CHARACTERS = 27;

/** A strong entity tag of what a resource says: another tag for every other content, whoever made the change. */
export function etagOf(body: unknown): string {
  return etagOfText(JSON.stringify(body));
}

/** The same of what a resource says as JSON. */
export function etagOfText(json: string): string {
  const digest = hash('sha256', json, 'base64url');
  return `"${digest.slice(0, KEPT_CHARACTERS)}"`;
}

/** Whether a tag is among those of an If-Match header (RFC 9110, strong comparison); `*` means any. */
export function matchesTag(header: string, etag: string): boolean {
  return header.trim() === '*' || header.split(',').some((tag) => tag.trim() === etag);
}
