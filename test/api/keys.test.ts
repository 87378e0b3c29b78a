import { UseNotes } from '#api/database/use-notes.js';
import { hashKey } from '#api/database/hash-key.js';
import { as, REFUSED } from '../support/as-clan.js';
import { aClan, aGame, aMember, type TestClan } from '../support/factories.js';
import { CHEAP_PASSPHRASES, signedIn, type Person } from '../support/person.js';
import { startTestApi, type TestApi } from '../support/test-api.js';

let api: TestApi;
let clan: TestClan;
let owner: Person;
let analyst: Person;
let reader: Person;

beforeAll(async () => {
  api = await startTestApi({ passphrase: CHEAP_PASSPHRASES });
});
afterAll(() => api.close());
beforeEach(async () => {
  const { owner: sql } = api.database;
  clan = await aClan(sql);
  owner = await signedIn(api, await aMember(sql, clan.id, 'owner', { name: 'Marlow' }));
  analyst = await signedIn(api, await aMember(sql, clan.id, 'analyst', { name: 'Sorrel' }));
  reader = await signedIn(api, await aMember(sql, clan.id, 'reader'));
});

async function made(by: Person, input: object): Promise<{ id: string; key: string }> {
  const response = await by.post('/v1/keys', { name: 'dashboard', ...input });
  expect(response).toMatchObject({ status: 201 });
  return response.body as { id: string; key: string };
}

describe('a key', () => {
  it('may do what its scopes say and nothing else', async () => {
    const game = await aGame(api.database.owner, clan);
    const statuses = async (scopes: string[]): Promise<number[]> => {
      const agent = api.as(await made(owner, { scopes }));
      return [
        (await agent.get(`/v1/players/${game.homePlayerId}/profile`)).status,
        (await agent.get('/v1/games')).status,
        (await agent.post('/v1/charts').send({ gameId: game.id, reference: scopes.join('-') })).status,
        (await agent.post('/v1/invitations').send({ role: 'reader' })).status,
      ];
    };
    expect(await statuses(['profiles'])).toEqual([200, 403, 403, 403]);
    expect(await statuses(['read'])).toEqual([200, 200, 403, 403]);
    expect(await statuses(['write'])).toEqual([403, 403, 201, 403]);
    expect(await statuses(['profiles', 'write'])).toEqual([200, 403, 201, 403]);
    expect(await statuses(['manage'])).toEqual([200, 200, 201, 201]);
  });

  it('is shown once and kept as a digest', async () => {
    const { id, key } = await made(owner, { scopes: ['read'] });
    expect(key).toMatch(/^rbk_[A-Za-z0-9_-]{43}$/);
    const { rows } = await api.database.owner.query('select key_hash, k::text as text from api_key k where id = $1', [
      id,
    ]);
    expect(rows[0].key_hash).toEqual(hashKey(key));
    expect(rows[0].text).not.toContain(key.slice(10));
    expect(JSON.stringify((await owner.get(`/v1/keys/${id}`)).body)).not.toContain(key.slice(10));
    const send = () =>
      owner
        .raw('post', '/v1/keys', owner.csrfToken)
        .set('Idempotency-Key', 'k')
        .send({ name: 'x', scopes: ['read'] });
    const [first, second] = [await send(), await send()];
    expect(second.body).toEqual({ ...first.body, key: null });
  });

  it('opens nothing from the moment on when it is revoked, or after its day', async () => {
    const revoked = await made(owner, { scopes: ['read'] });
    const expired = await made(owner, { scopes: ['read'], days: 1 });
    for (const key of [revoked, expired]) expect(await api.as(key).get('/v1/players')).toMatchObject({ status: 200 });
    expect(await owner.delete(`/v1/keys/${revoked.id}`)).toMatchObject({ status: 204 });
    await api.database.owner.query('update api_key set expires_at = now() where id = $1', [expired.id]);
    for (const key of [revoked, expired]) {
      expect(await api.as(key).get('/v1/players')).toMatchObject({ status: 401, body: { code: 'access.key_refused' } });
    }
    expect(await owner.get(`/v1/keys/${revoked.id}`)).toMatchObject({
      body: { revokedAt: expect.stringMatching(/Z$/) },
    });
  });

  it('says when it was last used, by whom it was made, and when it ends: after ninety days unless told', async () => {
    const key = await made(analyst, { scopes: ['read'] });
    await api.as(key).get('/v1/players');
    await api.app.get(UseNotes).write();
    const { body } = await analyst.get(`/v1/keys/${key.id}`);
    expect(body).toMatchObject({ madeBy: 'Sorrel', lastUsedAt: expect.stringMatching(/Z$/), revokedAt: null });
    expect(Date.parse(body.expiresAt) - Date.parse(body.createdAt)).toBe(90 * 86_400_000);
    expect(
      (await analyst.post('/v1/keys', { name: 'for ever', scopes: ['read'], days: null })).body.expiresAt,
    ).toBeNull();
  });

  it('never does more than whoever made it', async () => {
    expect(await analyst.post('/v1/keys', { name: 'x', scopes: ['manage'] })).toMatchObject({ status: 403 });
    expect(await analyst.post('/v1/keys', { name: 'x', scopes: ['read', 'write'] })).toMatchObject({ status: 201 });
    expect(await reader.post('/v1/keys', { name: 'x', scopes: ['read'] })).toMatchObject({ status: 403 });
    const writing = { ...clan, credential: { keyHash: hashKey((await made(owner, { scopes: ['write'] })).key) } };
    const more = `insert into api_key (clan_id, id, name, prefix, key_hash, rights, made_by)
                  select $1, gen_random_uuid(), 'x', 'rbk_', sha256('x'), array['read'], app.key_id()`;
    await expect(as(api.database, writing, more, [clan.id])).rejects.toMatchObject({ code: REFUSED.notAllowed });
  });

  it("is seen and revoked by whoever made it and by owners, and is nobody else's", async () => {
    const key = await made(analyst, { scopes: ['read'] });
    const other = await signedIn(api, await aMember(api.database.owner, clan.id, 'analyst'));
    const rival = await signedIn(api, await aMember(api.database.owner, (await aClan(api.database.owner)).id, 'owner'));
    for (const stranger of [other, rival]) {
      expect(await stranger.get(`/v1/keys/${key.id}`)).toMatchObject({ status: 404 });
      expect(await stranger.delete(`/v1/keys/${key.id}`)).toMatchObject({ status: 404 });
    }
    expect((await analyst.get('/v1/keys')).body.items).toHaveLength(1);
    expect((await owner.get('/v1/keys')).body.items.length).toBeGreaterThan(1);
    expect(await owner.delete(`/v1/keys/${key.id}`)).toMatchObject({ status: 204 });
  });
});
