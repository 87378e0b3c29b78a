import type { Response } from 'supertest';
import { aClan, aMember } from '../support/factories.js';
import { loadRecords, playerCalled } from '../support/load-records.js';
import { CHEAP_PASSPHRASES, PASSPHRASE } from '../support/person.js';
import { aGameRecord, aPlayRecord, TWO_PLAYERS } from '../support/small-league.js';
import { startTestApi, type TestApi } from '../support/test-api.js';

let api: TestApi;
beforeAll(async () => {
  api = await startTestApi({ passphrase: CHEAP_PASSPHRASES });
});
afterAll(() => api.close());
afterEach(() => api.database.owner.query('select app.delete_clan(id) from clan; delete from app.person'));

/** As browsers say it. */
const ACCEPT = 'text/html,application/xhtml+xml,application/xml;q=0.9,*/*;q=0.8';

/** A browser without scripts: follows what a form answers, and sends back what its hidden fields hold. */
class Browser {
  page = '';
  status = 0;

  constructor(private cookie = '') {}

  async open(path: string): Promise<string> {
    return this.follow(await this.request('get', path));
  }

  /** Sends the form of that action as the page has it, filled in. */
  async submit(action: string, fields: Record<string, string> = {}): Promise<string> {
    const form = new RegExp(`<form method="post" action="/account/${action}">(.*?)</form>`, 's').exec(this.page)?.[1];
    if (form === undefined) throw new Error(`the page has no form for ${action}: ${this.page}`);
    const hidden = [...form.matchAll(/<input type="hidden" name="(\w+)" value="([^"]*)"/g)];
    const values = { ...Object.fromEntries(hidden.map(([, name = '', value = '']) => [name, value])), ...fields };
    return this.send(action, values);
  }

  async send(action: string, fields: Record<string, string>, headers: Record<string, string> = {}): Promise<string> {
    const request = this.request('post', `/account/${action}`).set(headers).type('form');
    return this.follow(await request.send(fields));
  }

  private request(method: 'get' | 'post', path: string) {
    const request = api.browser()[method](path).set('Accept', ACCEPT);
    if (this.cookie !== '') request.set('Cookie', this.cookie);
    return request;
  }

  private follow(response: Response): string | Promise<string> {
    const cookie = response.get('Set-Cookie')?.[0]?.split(';')[0];
    if (cookie !== undefined) this.cookie = cookie;
    this.page = response.text;
    this.status = response.status;
    return response.status === 303 ? this.open(String(response.headers['location'])) : this.page;
  }
}

async function anOwner(): Promise<Browser> {
  const browser = new Browser();
  await browser.open('/account');
  const clan = { clanName: '<b>Night & Shift</b>', name: 'Marlow' };
  await browser.submit('sign-up', { ...clan, signInName: 'marlow', passphrase: PASSPHRASE });
  return browser;
}

describe('the pages of a person', () => {
  it('make the first clan on a fresh service, and let nobody else do so', async () => {
    const browser = await anOwner();
    expect(browser.page).toContain('Signed in as <strong>marlow</strong>');
    expect(browser.page).toContain('&lt;b&gt;Night &amp; Shift&lt;/b&gt;');
    const other = new Browser();
    expect(await other.open('/account')).toContain('<h1>Sign in</h1>');
  });

  it('say what was wrong and keep the name, but never the passphrase', async () => {
    await anOwner();
    const browser = new Browser();
    await browser.open('/account');
    const page = await browser.submit('sign-in', { signInName: 'marlow', passphrase: 'not the right one at all' });
    expect(browser.status).toBe(401);
    expect(page).toContain('role="alert"');
    expect(page).toContain('value="marlow"');
    expect(page).not.toContain('not the right one at all');
    expect(await browser.submit('sign-in', { signInName: 'marlow', passphrase: PASSPHRASE })).toContain('My account');
  });

  it('invite, and let a new person join by the link', async () => {
    const owner = await anOwner();
    const page = await owner.submit('invite', { role: 'reader', note: 'for Sorrel' });
    const link = /<code class="secret">[^<]*(\/invitation\/rbi_[\w-]{43})<\/code>/.exec(page)?.[1] ?? '';
    expect(await owner.open('/account')).toContain('for Sorrel');
    expect(owner.page).not.toContain(link);
    const sorrel = new Browser();
    expect(await sorrel.open(link)).toContain('You are invited as <strong>reader</strong>');
    const person = { name: 'Sorrel', signInName: 'sorrel', passphrase: PASSPHRASE };
    expect(await sorrel.submit('join', { ...person, passphrase: 'short' })).toContain('15 to 256 characters');
    expect(sorrel.page).toContain('value="Sorrel"');
    expect(sorrel.page).toContain('value="sorrel"');
    expect(sorrel.page).not.toContain('short');
    expect(await sorrel.submit('join', person)).toContain('as reader.');
    expect(sorrel.page).not.toContain('Keys for programs');
    expect(await new Browser().open(link)).toContain('The invitation does not work');
    // Everybody sees who is in the clan; an owner says as what, and removes.
    expect(sorrel.page).toMatch(/Who is in the clan[^]*Marlow[^]*Sorrel \(you\)/i);
    expect(sorrel.page).not.toMatch(/remove-member|change-role/);
    expect(await owner.open('/account')).toMatch(/<th scope="row">Sorrel<\/th>/);
    expect(owner.page).toContain('<option selected>reader</option>');
    await owner.submit('change-role', { role: 'analyst' });
    expect(owner.page).toContain('<option selected>analyst</option>');
    expect(await sorrel.open('/account')).toContain('as analyst.');
    expect(await owner.submit('change-role', { role: 'captain' })).toContain('role="alert"');
    expect(await owner.submit('remove-member')).not.toMatch(/<th scope="row">Sorrel<\/th>/);
    expect(await sorrel.open('/account')).toContain('in no clan now');
  });

  it('say beside each field of an invitation what it needs', async () => {
    const owner = await anOwner();
    const page = await owner.submit('invite', { role: 'reader' });
    const sorrel = new Browser();
    await sorrel.open(/\/invitation\/rbi_[\w-]{43}/.exec(page)?.[0] ?? '');
    await sorrel.submit('join', { name: '', signInName: 'two words', passphrase: 'short' });
    expect(sorrel.status).toBe(400);
    expect(sorrel.page).not.toContain('must be');
    const mistakes = [...sorrel.page.matchAll(/<strong id="(\w+)-mistake">([^<]+)</g)];
    expect(mistakes.map(([, field, told]) => [field, told])).toEqual([
      ['name', 'Needs 1 to 80 characters.'],
      ['signInName', 'Needs 3 to 80 characters without spaces.'],
      ['passphrase', 'Needs 15 to 256 characters.'],
    ]);
    for (const [, field] of mistakes) expect(sorrel.page).toContain(`aria-describedby="${field}-mistake"`);
    await sorrel.submit('join', { name: 'Sorrel', signInName: 'marlow', passphrase: PASSPHRASE });
    expect(sorrel.status).toBe(409);
    expect(sorrel.page).toMatch(/value="marlow"[^]*id="signInName-mistake">Needs one that no other has\./);
  });

  it('erase a person, and say so when somebody else must own the clan first', async () => {
    const owner = await anOwner();
    expect(await owner.submit('erase', { passphrase: PASSPHRASE })).toContain('hand the clan over');
    expect(await owner.open('/account')).toContain('My account');
    await owner.submit('invite', { role: 'owner' });
    const link = /<code class="secret">[^<]*(\/invitation\/rbi_[\w-]{43})<\/code>/.exec(owner.page)?.[1] ?? '';
    const sorrel = new Browser();
    await sorrel.open(link);
    await sorrel.submit('join', { name: 'Sorrel', signInName: 'sorrel', passphrase: PASSPHRASE });
    expect(await owner.submit('erase', { passphrase: PASSPHRASE })).toContain('<h1>Sign in</h1>');
    expect(await sorrel.open('/account')).toContain('Who is in the clan');
    expect(sorrel.page.toLowerCase()).not.toContain('marlow');
  });

  it('let who has signed in accept as the same person, and go from clan to clan', async () => {
    const owner = await anOwner();
    const other = await aClan(api.database.owner, { name: 'Brass Herons' });
    const made = await api.as(other).post('/v1/invitations').send({ role: 'analyst' });
    await owner.open(new URL(made.body.link as string).pathname);
    expect(await owner.submit('join-as', { name: 'Marlow' })).toContain('in <strong>Brass Herons</strong> as analyst');
    expect(await owner.submit('clan')).toContain('Shift&lt;/b&gt;</strong> as owner');
    expect(owner.page).toContain('Go on in Brass Herons');
  });

  it('make and revoke keys, end sessions, change the passphrase, sign out', async () => {
    const owner = await anOwner();
    const page = await owner.submit('make-key', { name: 'dashboard', scopes: 'profiles' });
    const key = /<code class="secret">(rbk_[\w-]{43})<\/code>/.exec(page)?.[1] ?? '';
    expect(await api.as({ key }).get('/v1/players')).toMatchObject({ status: 200 });
    await owner.open('/account');
    expect(await owner.submit('revoke-key')).toContain('<p>None.</p>');
    expect(await api.as({ key }).get('/v1/players')).toMatchObject({ status: 401 });
    const elsewhere = new Browser();
    await elsewhere.open('/account');
    await elsewhere.submit('sign-in', { signInName: 'marlow', passphrase: PASSPHRASE });
    await owner.open('/account');
    await owner.submit('end-session');
    expect(await elsewhere.open('/account')).toContain('<h1>Sign in</h1>');
    const change = { passphrase: PASSPHRASE, newPassphrase: 'nine herons in the reeds' };
    expect(await owner.submit('passphrase', change)).toContain('My account');
    expect(await owner.submit('sign-out')).toContain('<h1>Sign in</h1>');
    expect(await owner.submit('sign-in', { signInName: 'marlow', passphrase: PASSPHRASE })).toContain('role="alert"');
  });

  it('do nothing for the page of another site, or for a form without the token', async () => {
    const owner = await anOwner();
    await owner.send('invite', { role: 'owner' });
    expect(owner.status).toBe(403);
    const token = /name="csrfToken" value="([^"]+)"/.exec(await owner.open('/account'))?.[1] ?? '';
    await owner.send('invite', { role: 'owner', csrfToken: token }, { 'Sec-Fetch-Site': 'cross-site' });
    expect(owner.status).toBe(403);
    const { rowCount } = await api.database.owner.query('select from invitation');
    expect(rowCount).toBe(0);
    const stranger = new Browser();
    await stranger.send(
      'sign-in',
      { signInName: 'marlow', passphrase: PASSPHRASE },
      { Origin: 'https://rival.example' },
    );
    expect(stranger.status).toBe(403);
  });

  it('lead to the newest reports of the clan, or say how one is made', async () => {
    const clan = await aClan(api.database.owner);
    const { session } = await aMember(api.database.owner, clan.id, 'reader');
    const reader = new Browser(`roundbook=${session}`);
    expect(await reader.open('/account')).toMatch(/Round reports[^]*None yet[^]*href="\/docs"/);
    await loadRecords(api, clan, [...TWO_PLAYERS, aGameRecord(), aPlayRecord()]);
    const playerId = await playerCalled(api, clan, 'Brass Heron');
    const { id: eventId } = (await api.as(clan).get('/v1/events')).body.items[0];
    const made: string[] = [];
    for (let count = 0; count < 11; count += 1) {
      const { body } = await api.as(clan).post('/v1/round-reports').send({ eventId, playerId });
      made.unshift(`/v1/round-reports/${body.id}`);
    }
    const page = await reader.open('/account');
    expect(page).toContain('Mossback, Pond Cup</a>');
    const links = [...page.matchAll(/href="(\/v1\/round-reports\/[\w-]+)"/g)].map(([, path]) => path);
    expect(links).toEqual(made.slice(0, 10));
    for (const path of [made[0], `${made[0]}/report-card`]) {
      expect(await reader.open(path ?? '')).toContain('Mossback');
      expect(reader.status).toBe(200);
    }
    const rival = await aClan(api.database.owner);
    const stranger = await aMember(api.database.owner, rival.id, 'owner');
    expect(await new Browser(`roundbook=${stranger.session}`).open('/account')).toContain('None yet');
  });

  it('begin at the root, where a program is told what to read', async () => {
    expect(await new Browser().open('/')).toContain('<h1>Make the first clan</h1>');
    for (const accept of ['*/*', 'application/json']) {
      const { status, type, body } = await api.browser().get('/').set('Accept', accept);
      expect({ status, type }).toEqual({ status: 404, type: 'application/problem+json' });
      expect(body.detail).toContain('/openapi.json');
    }
  });

  it('ask whoever has not signed in to do so, and go on to what was asked for', async () => {
    await anOwner();
    const path = '/v1/round-reports/01890a5d-ac96-774b-bcce-b302099a8057/report-card';
    const browser = new Browser();
    expect(await browser.open(path)).toContain('<h1>Sign in to read this</h1>');
    expect(browser.status).toBe(401);
    const signIn = /href="(\/account\?next=[^"]+)"/.exec(browser.page)?.[1] ?? '';
    await browser.open(signIn);
    await browser.submit('sign-in', { signInName: 'marlow', passphrase: 'not the right one at all' });
    const page = await browser.submit('sign-in', { signInName: 'marlow', passphrase: PASSPHRASE });
    expect(browser.status).toBe(404);
    expect(page).toContain('no round report has this id');
    expect(await browser.open('/nowhere')).toContain('<h1>No such address</h1>');
    for (const accept of ['*/*', 'application/json']) {
      const answer = await api.browser().get(path).set('Accept', accept);
      expect(answer).toMatchObject({ status: 401, body: { code: 'access.key_missing' } });
    }
    const program = await api.browser().get(path).set({ Accept: ACCEPT, Authorization: 'Bearer rbk_unknown' });
    expect(program).toMatchObject({ status: 401, body: { code: 'access.key_refused' } });
  });

  it.each(['//rival.example/v1', 'https://rival.example', '/v1//rival.example', '/\\rival.example', '/account/erase'])(
    'go on to no other place than a page of the service: %s',
    async (next) => {
      await anOwner();
      const browser = new Browser();
      expect(await browser.open(`/account?next=${encodeURIComponent(next)}`)).not.toContain('name="next"');
      const entered = { signInName: 'marlow', passphrase: PASSPHRASE, next };
      expect(await browser.submit('sign-in', entered)).toContain('<h1>My account</h1>');
    },
  );

  it('allow nothing but their own style and forms, and are kept by no cache', async () => {
    const { headers } = await api.browser().get('/account');
    expect(headers['content-security-policy']).toMatch(
      /^default-src 'none'; style-src 'sha256-[^']+'; base-uri 'none'; form-action 'self'; frame-ancestors 'none'$/,
    );
    expect(headers['cache-control']).toBe('no-store');
  });
});
