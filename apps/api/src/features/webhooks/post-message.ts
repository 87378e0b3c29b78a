import { request as plainRequest } from 'node:http';
import { request as secureRequest } from 'node:https';
import { publicLookup, refusedAddress } from './reachable-address.js';

const PATIENCE_MS = 10_000;
/** Of an error, which may quote what the receiver sent: its certificate may name hundreds of hosts. */
const MOST_TOLD = 500;

export interface Message {
  readonly url: string;
  readonly headers: Readonly<Record<string, string>>;
  readonly body: string;
}

/** What came of it: the status with what `Retry-After` asked for, or why there is none. */
export type Answer =
  { readonly status: number; readonly retryAfterMs: number } | { readonly status: null; readonly problem: string };

/** Posts once. Nothing is followed, and of the answer only the head is read. Never throws. */
export function postMessage({ url: text, headers, body }: Message, privateToo: boolean): Promise<Answer> {
  const refused = refusedAddress(text, privateToo);
  if (refused !== null) return Promise.resolve({ status: null, problem: `the address must be ${refused}` });
  const url = new URL(text);
  const request = url.protocol === 'https:' ? secureRequest : plainRequest;
  return new Promise((resolve) => {
    const sending = request(
      url,
      {
        method: 'POST',
        headers: { ...headers, 'Content-Length': Buffer.byteLength(body) },
        // A connection of its own: nothing that was opened for another address is used again.
        agent: false,
        signal: AbortSignal.timeout(PATIENCE_MS),
        ...(privateToo ? {} : { lookup: publicLookup }),
      },
      (response) => {
        const seconds = Number(response.headers['retry-after'] ?? 0);
        resolve({ status: response.statusCode ?? 0, retryAfterMs: seconds > 0 ? seconds * 1_000 : 0 });
        response.destroy();
      },
    );
    sending.once('error', (error) => {
      const isLate = error.name === 'TimeoutError' || error.name === 'AbortError';
      resolve({ status: null, problem: isLate ? 'no answer in time' : error.message.slice(0, MOST_TOLD) });
    });
    // An answer that asks for another protocol (101) comes as neither response nor error: the connection ends, and nothing
    // else is told. It is the last that happens to a request, so whatever was answered before stands.
    sending.once('close', () => {
      resolve({ status: null, problem: 'the connection ended without an answer' });
    });
    sending.end(body);
  });
}
