import type { IncomingMessage } from 'node:http';
import type { Response } from 'supertest';
import { aClan, aKey, aMember, type TestClan } from '../factories.js';
import { Person, signedIn } from '../person.js';
import type { TestApi } from '../test-api.js';

/** Everyone who may come to an operation. `rival` is the owner of another clan. */
export const CALLERS = [
  ...(['nobody', 'revoked key', 'expired key'] as const),
  ...(['reader', 'analyst', 'owner'] as const),
  ...(['key for profiles', 'key for read', 'key for write', 'key for manage'] as const),
  'rival',
] as const;
export type Caller = (typeof CALLERS)[number];

/** What each may do. */
export const RIGHTS_OF: Readonly<Record<Caller, readonly string[]>> = {
  nobody: [],
  'revoked key': [],
  'expired key': [],
  reader: ['profiles', 'read'],
  analyst: ['profiles', 'read', 'write'],
  owner: ['profiles', 'read', 'write', 'manage'],
  'key for profiles': ['profiles'],
  'key for read': ['profiles', 'read'],
  'key for write': ['write'],
  'key for manage': ['profiles', 'read', 'write', 'manage'],
  rival: ['profiles', 'read', 'write', 'manage'],
};

export const isPerson = (caller: Caller): boolean => ['reader', 'analyst', 'owner', 'rival'].includes(caller);
export const isKey = (caller: Caller): boolean => caller.includes('key');

export interface Call {
  readonly method: string;
  readonly address: string;
  readonly body: object | string | null;
  readonly type: string;
}

/** A clan with one caller of each kind, and its rival. */
export class Callers {
  private readonly known = new Map<Caller, Agent>();

  private constructor(
    private readonly api: TestApi,
    readonly clan: TestClan,
    readonly rival: TestClan,
    private readonly keys: ReadonlyMap<Caller, string>,
  ) {}

  static async of(api: TestApi): Promise<Callers> {
    const { owner } = api.database;
    const [clan, rival] = [await aClan(owner), await aClan(owner)];
    const past = '2020-01-01T00:00:00Z';
    const key = async (row: object): Promise<string> => (await aKey(owner, clan.id, { ...row })).key;
    const keys = new Map<Caller, string>([
      ['revoked key', await key({ revoked_at: past })],
      ['expired key', await key({ expires_at: past })],
      ['key for profiles', await key({ rights: ['profiles'] })],
      ['key for read', await key({ rights: ['read'] })],
      ['key for write', await key({ rights: ['write'] })],
      ['key for manage', await key({ rights: ['manage'] })],
    ]);
    return new Callers(api, clan, rival, keys);
  }

  /** Somebody of that kind; somebody new where what is asked may end the session. */
  async agent(caller: Caller, somebodyNew: boolean): Promise<Agent> {
    const known = somebodyNew ? undefined : this.known.get(caller);
    const agent = known ?? (await this.make(caller));
    if (!somebodyNew) this.known.set(caller, agent);
    return agent;
  }

  private async make(caller: Caller): Promise<Agent> {
    if (!isPerson(caller)) return new Agent(this.api, null, this.keys.get(caller) ?? null, null);
    const of = caller === 'rival' ? this.rival : this.clan;
    const role = caller === 'rival' ? 'owner' : (caller as 'reader' | 'analyst' | 'owner');
    const member = await aMember(this.api.database.owner, of.id, role, { name: caller });
    return new Agent(this.api, await signedIn(this.api, member), null, member.personId);
  }
}

export class Agent {
  constructor(
    private readonly api: TestApi,
    private readonly person: Person | null,
    private readonly key: string | null,
    readonly personId: string | null,
  ) {}

  async send({ method, address, body, type }: Call): Promise<Response> {
    const verb = method as 'get' | 'post' | 'put' | 'patch' | 'delete';
    const request =
      this.person?.raw(verb, address, this.person.csrfToken) ??
      (this.key === null ? this.api.browser() : this.api.as({ key: this.key }))[verb](address);
    if (method !== 'get') request.set('If-Match', '*');
    // A stream has no end to wait for: that it begins is its answer.
    if (method === 'get' && address.includes('/stream')) request.buffer(true).parse(leaveStream);
    if (body === null) return request;
    return request.set('Content-Type', type).send(typeof body === 'string' ? body : JSON.stringify(body));
  }
}

/** What the client's types call a response is Node's own message at this point. */
function leaveStream(answer: Response, done: (error: Error | null, body: unknown) => void): void {
  const response = answer as unknown as IncomingMessage;
  if (response.headers['content-type']?.startsWith('text/event-stream') === true) {
    done(null, {});
    response.destroy();
    return;
  }
  response.setEncoding('utf8');
  let text = '';
  response.on('data', (chunk: string) => (text += chunk));
  response.once('end', () => {
    done(null, JSON.parse(text));
  });
}
