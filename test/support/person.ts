import type { Response, Test } from 'supertest';
import type { PassphraseSettings } from '#api/config/settings.js';
import type { TestApi } from './test-api.js';

/** The least that argon2id can do, so that tests do not wait for it. */
export const CHEAP_PASSPHRASES: PassphraseSettings = { memoryKib: 8, passes: 1 };

export const PASSPHRASE = 'four lanterns over wet slate';

/** A person at a browser: keeps the cookie that answers set, and sends the token that changes need. */
export class Person {
  csrfToken = '';

  constructor(
    private readonly api: TestApi,
    private token: string | null,
  ) {}

  /** The same cookie in another browser, as a thief would have it. */
  copy(): Person {
    const copy = new Person(this.api, this.token);
    copy.csrfToken = this.csrfToken;
    return copy;
  }

  signUp(signInName: string, input: object = {}): Promise<Response> {
    const name = `${signInName.slice(0, 1).toUpperCase()}${signInName.slice(1)}`;
    const clanName = 'Night Shift Almanac';
    return this.post('/v1/sign-up', { signInName, passphrase: PASSPHRASE, name, clanName, ...input });
  }

  signIn(signInName: string, passphrase = PASSPHRASE, browser?: string, clanId?: string): Promise<Response> {
    const request = this.raw('post', '/v1/session');
    if (browser !== undefined) request.set('User-Agent', browser);
    return this.keeping(request.send({ signInName, passphrase, clanId }));
  }

  get(path: string): Promise<Response> {
    return this.keeping(this.raw('get', path));
  }

  post(path: string, body: object): Promise<Response> {
    return this.keeping(this.raw('post', path, this.csrfToken).send(body));
  }

  put(path: string, body: object): Promise<Response> {
    return this.keeping(this.raw('put', path, this.csrfToken).send(body));
  }

  async delete(path: string): Promise<Response> {
    const tag = await this.tagOf(path);
    return this.keeping(this.raw('delete', path, this.csrfToken).set('If-Match', tag));
  }

  async patch(path: string, change: object): Promise<Response> {
    const tag = await this.tagOf(path);
    const request = this.raw('patch', path, this.csrfToken).set('If-Match', tag);
    return this.keeping(request.set('Content-Type', 'application/merge-patch+json').send(change));
  }

  /** Reads first, as a client does, for the tag that a change must name. */
  private async tagOf(path: string): Promise<string> {
    const { headers } = await this.raw('get', path);
    return headers['etag'] ?? '*';
  }

  /** A request with the cookie, whose answer changes nothing here. */
  raw(method: 'get' | 'post' | 'put' | 'patch' | 'delete', path: string, csrfToken?: string): Test {
    const request = this.api.browser()[method](path);
    if (this.token !== null) request.set('Cookie', `roundbook=${this.token}`);
    if (csrfToken !== undefined) request.set('X-CSRF-Token', csrfToken);
    return request;
  }

  private async keeping(request: Test): Promise<Response> {
    const response = await request;
    for (const cookie of response.get('Set-Cookie') ?? []) {
      const value = /^(?:__Host-)?roundbook=([^;]*);/.exec(cookie)?.[1];
      if (value !== undefined) this.token = value === '' ? null : value;
    }
    const token: unknown = response.body?.csrfToken;
    if (typeof token === 'string') this.csrfToken = token;
    return response;
  }
}

/** Somebody who has not signed in, or who holds the token of a session. */
export function personOf(api: TestApi, token: string | null = null): Person {
  return new Person(api, token);
}

/** Somebody whose session a factory made, with the token that changes need. */
export async function signedIn(api: TestApi, { session }: { readonly session: string }): Promise<Person> {
  const person = new Person(api, session);
  await person.get('/v1/session');
  return person;
}
