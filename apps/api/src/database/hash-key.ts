import { hash } from 'node:crypto';

/** A key is 256 random bits, so a plain digest of it cannot be guessed back. */
export function hashKey(key: string): Buffer {
  return hash('sha256', key, 'buffer');
}
