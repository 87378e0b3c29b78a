import { randomBytes } from 'node:crypto';
import { hashKey } from './hash-key.js';

/** How each begins, so that a leaked one can be scanned for and known: a key, a session, an invitation, a link to a report. */
const PREFIXES = { key: 'rbk_', session: 'rbs_', invitation: 'rbi_', link: 'rbl_' } as const;
const SECRET_BYTES = 32;
const SHOWN_CHARACTERS = 10;

const FORMS = new Map(Object.values(PREFIXES).map((prefix) => [prefix, new RegExp(`^${prefix}[A-Za-z0-9_-]{43}$`)]));

export interface Secret {
  /** Shown or sent once, and never stored. */
  readonly text: string;
  readonly digest: Buffer;
  /** Its first characters, by which a person finds it in a list. */
  readonly prefix: string;
}

export function newSecret(kind: keyof typeof PREFIXES): Secret {
  return secretOf(`${PREFIXES[kind]}${randomBytes(SECRET_BYTES).toString('base64url')}`);
}

function secretOf(text: string): Secret {
  return { text, digest: hashKey(text), prefix: text.slice(0, SHOWN_CHARACTERS) };
}

/** The secret in a text, or null where the text has not the form of one. */
export function readSecret(kind: keyof typeof PREFIXES, text: string | undefined): Secret | null {
  return text !== undefined && FORMS.get(PREFIXES[kind])?.test(text) === true ? secretOf(text) : null;
}
