import type { Response, Test } from 'supertest';
import { UseNotes } from '#api/database/use-notes.js';
import { aClan, aKey, aMember } from '../support/factories.js';
import { CHEAP_PASSPHRASES, PASSPHRASE, personOf, signedIn, type Person } from '../support/person.js';
import { startTestApi, type TestApi } from '../support/test-api.js';

let api: TestApi;
beforeAll(async () => {
  api = await startTestApi({ passphrase: CHEAP_PASSPHRASES });
});
afterAll(() => api.close());
// Fresh again, as the service was on its first day.
afterEach(() => api.database.owner.query('select app.delete_clan(id) from clan; delete from app.person'));

describe('signing up', () => {
  it('on a fresh service makes the first clan and its owner, who is signed in', async () => {
    const marlow = personOf(api);
    const response = await marlow.signUp('marlow');
    expect(response).toMatchObject({
      status: 201,
      body: {
        signInName: 'marlow',
        rights: ['read', 'write', 'manage'],
        clans: [{ clanName: 'Night Shift Almanac', memberName: 'Marlow', role: 'owner' }],
      },
    });
    expect(response.body.clanId).toBe(response.body.clans[0].clanId);
    expect(await marlow.get('/v1/session')).toMatchObject({ status: 200, body: { id: response.body.id } });
    expect(await marlow.post('/v1/players', { handle: 'Mossback' })).toMatchObject({ status: 201 });
    expect((await marlow.get('/v1/players')).body.items).toHaveLength(1);
  });

  it('is closed as soon as there is a clan, even to two who come at the same moment', async () => {
    const statuses = await Promise.all(
      ['marlow', 'sorrel'].map(async (name) => (await personOf(api).signUp(name)).status),
    );
    expect(statuses.sort()).toEqual([201, 403]);
    expect(await personOf(api).signUp('teasel')).toMatchObject({
      status: 403,
      body: { code: 'access.sign_up_closed' },
    });
  });

  it('asks for a long passphrase and never says it back', async () => {
    const response = await personOf(api).signUp('marlow', { passphrase: 'too short' });
    expect(response).toMatchObject({
      status: 400,
      body: { errors: [{ field: 'passphrase', found: '', expected: '15 to 256 characters' }] },
    });
  });
});

describe('signing in', () => {
  it('refuses a wrong passphrase and a name that nobody has in the same words', async () => {
    await personOf(api).signUp('marlow');
    const wrong = await personOf(api).signIn('marlow', 'four lanterns over dry slate');
    const nobody = await personOf(api).signIn('nobody', PASSPHRASE);
    expect(wrong).toMatchObject({ status: 401, body: { code: 'access.sign_in_refused' } });
    expect(told(nobody)).toEqual(told(wrong));
  });

  it('takes the name in capitals, and the passphrase in whatever way its letters are encoded', async () => {
    await personOf(api).signUp('marlow', { passphrase: 'caf\u00e9 lanterns over slate' });
    expect(await personOf(api).signIn('MARLOW', 'cafe\u0301 lanterns over slate')).toMatchObject({ status: 201 });
  });

  it('sets a cookie that no script reads and no other site sends along', async () => {
    const response = await personOf(api).signUp('marlow');
    const [cookie] = response.get('Set-Cookie') ?? [];
    expect(cookie).toMatch(
      /^roundbook=rbs_[A-Za-z0-9_-]{43}; Max-Age=2592000; Path=\/; Expires=[^;]+; HttpOnly; SameSite=Lax$/,
    );
    expect(response.headers['cache-control']).toBe('no-store');
  });

  it('rotates the session: the one before has ended', async () => {
    const marlow = personOf(api);
    await marlow.signUp('marlow');
    const before = marlow.copy();
    await marlow.signIn('marlow', PASSPHRASE);
    expect(await before.get('/v1/session')).toMatchObject({ status: 401, body: { code: 'access.key_refused' } });
    expect(await marlow.get('/v1/session')).toMatchObject({ status: 200 });
  });

  it('opens nothing under a token that somebody planted', async () => {
    await personOf(api).signUp('marlow');
    const marlow = personOf(api, `rbs_${'A'.repeat(43)}`);
    await marlow.signIn('marlow', PASSPHRASE);
    expect(await personOf(api, `rbs_${'A'.repeat(43)}`).get('/v1/session')).toMatchObject({ status: 401 });
  });

  it('keeps a digest of what argon2id made, and makes it anew when that has become too cheap', async () => {
    await personOf(api).signUp('marlow');
    const kept = () => api.database.owner.query('select passes, memory_kib, verifier, salt from app.person');
    const [first] = (await kept()).rows;
    expect(first).toMatchObject({ memory_kib: CHEAP_PASSPHRASES.memoryKib, passes: 1 });
    await personOf(api).signIn('marlow', PASSPHRASE);
    expect((await kept()).rows[0]).toEqual(first);
    const dearer = await api.again({ passphrase: { memoryKib: 64, passes: 2 } });
    expect(await personOf(dearer).signIn('marlow', PASSPHRASE)).toMatchObject({ status: 201 });
    const [second] = (await kept()).rows;
    expect(second).toMatchObject({ memory_kib: 64, passes: 2 });
    expect(second.salt).not.toEqual(first.salt);
    expect(await personOf(api).signIn('marlow', PASSPHRASE)).toMatchObject({ status: 201 });
    await dearer.app.close();
  });
});

describe('a session', () => {
  let marlow: Person;
  beforeEach(async () => {
    marlow = personOf(api);
    await marlow.signUp('marlow');
  });

  it('is listed with the others of the person, and each can be ended', async () => {
    const elsewhere = personOf(api);
    await elsewhere.signIn('marlow', PASSPHRASE, 'Lantern 1.0');
    const sessions = await marlow.get('/v1/sessions');
    // The last used first.
    expect(sessions.body.items).toMatchObject([{ current: false }, { current: true }]);
    const [other] = sessions.body.items;
    expect(other.userAgent).toBe('Lantern 1.0');
    expect(await marlow.delete(`/v1/sessions/${other.id}`)).toMatchObject({ status: 204 });
    expect(await elsewhere.get('/v1/players')).toMatchObject({ status: 401 });
    expect(await marlow.delete(`/v1/sessions/${other.id}`)).toMatchObject({ status: 404 });
  });

  it("is nobody else's to end", async () => {
    const { clanId } = (await marlow.get('/v1/session')).body;
    const sorrel = await signedIn(api, await aMember(api.database.owner, clanId, 'analyst'));
    const { items } = (await marlow.get('/v1/sessions')).body;
    expect(await sorrel.delete(`/v1/sessions/${items[0].id}`)).toMatchObject({ status: 404 });
    expect((await sorrel.get('/v1/sessions')).body.items).toHaveLength(1);
  });

  it('ends when the person signs out', async () => {
    const copy = marlow.copy();
    const response = await marlow.delete('/v1/session');
    expect(response).toMatchObject({ status: 204 });
    expect(response.get('Set-Cookie')?.[0]).toMatch(/^roundbook=; /);
    expect(await copy.get('/v1/players')).toMatchObject({ status: 401 });
  });

  it('ends after a week without use, and after thirty days whatever', async () => {
    for (const change of [`last_used_at = now() - interval '8 days'`, `expires_at = now() - interval '1 minute'`]) {
      const again = personOf(api);
      await again.signIn('marlow', PASSPHRASE);
      expect(await again.get('/v1/players')).toMatchObject({ status: 200 });
      await api.database.owner.query(`update app.person_session set ${change}`);
      expect(await again.get('/v1/players')).toMatchObject({ status: 401 });
      expect(await again.get('/v1/session')).toMatchObject({ status: 401 });
    }
  });

  it('ends everywhere else when the passphrase changes, and goes on here under another token', async () => {
    const elsewhere = personOf(api);
    await elsewhere.signIn('marlow', PASSPHRASE);
    const before = marlow.copy();
    const change = { passphrase: PASSPHRASE, newPassphrase: 'nine herons in the reeds' };
    expect(await marlow.put('/v1/passphrase', { ...change, passphrase: 'not the one at all' })).toMatchObject({
      status: 401,
    });
    expect(await marlow.put('/v1/passphrase', change)).toMatchObject({ status: 200 });
    expect(await elsewhere.get('/v1/session')).toMatchObject({ status: 401 });
    expect(await before.get('/v1/session')).toMatchObject({ status: 401 });
    expect(await marlow.get('/v1/session')).toMatchObject({ status: 200 });
    expect(await personOf(api).signIn('marlow', PASSPHRASE)).toMatchObject({ status: 401 });
    expect(await personOf(api).signIn('marlow', change.newPassphrase)).toMatchObject({ status: 201 });
  });

  it('goes on in another clan of the person, under another token', async () => {
    const other = await aClan(api.database.owner);
    await aMember(api.database.owner, other.id, 'reader', { signInName: 'marlow' });
    const { clanId, clans } = (await marlow.get('/v1/session')).body;
    expect(clans).toHaveLength(2);
    const before = marlow.copy();
    expect(await marlow.put('/v1/session/clan', { clanId: other.id })).toMatchObject({
      status: 200,
      body: { clanId: other.id, rights: ['read'] },
    });
    expect(await before.get('/v1/session')).toMatchObject({ status: 401 });
    expect(await marlow.post('/v1/players', { handle: 'Mossback' })).toMatchObject({
      status: 403,
      body: { code: 'access.right_missing' },
    });
    expect(await marlow.put('/v1/session/clan', { clanId })).toMatchObject({ status: 200 });
    const strange = await aClan(api.database.owner);
    expect(await marlow.put('/v1/session/clan', { clanId: strange.id })).toMatchObject({ status: 404 });
  });

  it('begins in the clan that is wanted, else in the one last used', async () => {
    const other = await aClan(api.database.owner);
    await aMember(api.database.owner, other.id, 'reader', { signInName: 'marlow' });
    const { clanId } = (await marlow.get('/v1/session')).body;
    for (const lastUsed of [clanId, other.id]) {
      await api.database.owner.query(
        `update app.person_session
            set last_used_at = case when clan_id = $1 then now() else now() - interval '1 hour' end`,
        [lastUsed],
      );
      expect((await personOf(api).signIn('marlow')).body.clanId).toBe(lastUsed);
    }
    expect((await personOf(api).signIn('marlow', PASSPHRASE, undefined, clanId)).body.clanId).toBe(clanId);
  });

  it('says when it was last used, to the minute', async () => {
    await api.database.owner.query(`update app.person_session set last_used_at = now() - interval '1 day'`);
    const lastUsed = async (): Promise<string> => (await marlow.get('/v1/sessions')).body.items[0].lastUsedAt as string;
    const before = await lastUsed();
    await marlow.get('/v1/players');
    expect(await lastUsed()).toBe(before);
    await api.app.get(UseNotes).write();
    expect((await lastUsed()) > before).toBe(true);
  });

  it('is of no use to a key, nor a key for what concerns a person', async () => {
    const { clanId } = (await marlow.get('/v1/session')).body;
    const key = await aKey(api.database.owner, clanId);
    expect(await api.as(key).get('/v1/session')).toMatchObject({ status: 403, body: { code: 'access.person_needed' } });
    expect(await api.anonymous.get('/v1/session')).toMatchObject({ status: 401, body: { code: 'access.key_missing' } });
  });
});

describe('what a cookie lets in', () => {
  let marlow: Person;
  beforeEach(async () => {
    marlow = personOf(api);
    await marlow.signUp('marlow');
  });
  const play = { handle: 'Mossback' };
  const refused = { status: 403, body: { code: 'access.cross_site' } };

  it("changes nothing without the session's own token", async () => {
    const other = personOf(api);
    const { body } = await other.signIn('marlow', PASSPHRASE);
    for (const token of [undefined, '', 'guess', body.csrfToken as string]) {
      expect(await marlow.raw('post', '/v1/players', token).send(play)).toMatchObject(refused);
    }
    expect(await marlow.raw('get', '/v1/players')).toMatchObject({ status: 200, body: { items: [] } });
  });

  it.each([{ 'Sec-Fetch-Site': 'cross-site' }, { 'Sec-Fetch-Site': 'same-site' }, { Origin: 'https://rival.example' }])(
    'changes nothing for the page of another site, even with the token: %j',
    async (headers) => {
      const send = (request: Test): Promise<Response> => request.set(headers).send(play);
      expect(await send(marlow.raw('post', '/v1/players', marlow.csrfToken))).toMatchObject(refused);
      expect(await send(marlow.raw('delete', '/v1/session', marlow.csrfToken))).toMatchObject(refused);
      expect(await send(api.anonymous.post('/v1/session'))).toMatchObject({ status: 400 });
      const signIn = api.anonymous.post('/v1/session').set(headers);
      expect(await signIn.send({ signInName: 'marlow', passphrase: PASSPHRASE })).toMatchObject(refused);
    },
  );

  it('changes what the own page asks for', async () => {
    const request = marlow.raw('post', '/v1/players', marlow.csrfToken).set('Sec-Fetch-Site', 'same-origin');
    expect(await request.send(play)).toMatchObject({ status: 201 });
  });

  it('is sent over TLS only, under a name that the browser guards, where the service is reached over TLS', async () => {
    const secure = await api.again({ passphrase: CHEAP_PASSPHRASES, publicUrl: 'https://scouting.example' });
    const response = await personOf(secure).signIn('marlow', PASSPHRASE);
    const [cookie = ''] = response.get('Set-Cookie') ?? [];
    expect(cookie).toMatch(
      /^__Host-roundbook=rbs_[^;]+; Max-Age=2592000; Path=\/; Expires=[^;]+; HttpOnly; Secure; SameSite=Lax$/,
    );
    const token = cookie.slice(cookie.indexOf('=') + 1, cookie.indexOf(';'));
    const get = (name: string): Test => secure.browser().get('/v1/session').set('Cookie', `${name}=${token}`);
    expect(await get('__Host-roundbook')).toMatchObject({ status: 200 });
    expect(await get('roundbook')).toMatchObject({ status: 401 });
    await secure.app.close();
  });
});

function told({ status, body }: Response): object {
  return { status, code: body.code, title: body.title, detail: body.detail };
}
