import { aClan, aKey, aMember, aPlayer, insert, type TestClan } from '../support/factories.js';
import { handOf } from '../support/http.js';
import { CHEAP_PASSPHRASES, signedIn, type Person } from '../support/person.js';
import { startTestApi, type TestApi } from '../support/test-api.js';

let api: TestApi;
let clan: TestClan;
let owner: Person;
let analyst: Person;
let reader: Person;
let ids: Record<'owner' | 'analyst' | 'reader', string>;

beforeAll(async () => {
  api = await startTestApi({ passphrase: CHEAP_PASSPHRASES });
});
afterAll(() => api.close());

beforeEach(async () => {
  clan = await aClan(api.database.owner);
  const members = {
    owner: await aMember(api.database.owner, clan.id, 'owner', { name: 'Marlow' }),
    analyst: await aMember(api.database.owner, clan.id, 'analyst', { name: 'Sorrel' }),
    reader: await aMember(api.database.owner, clan.id, 'reader', { name: 'Teasel' }),
  };
  owner = await signedIn(api, members.owner);
  analyst = await signedIn(api, members.analyst);
  reader = await signedIn(api, members.reader);
  ids = { owner: members.owner.memberId, analyst: members.analyst.memberId, reader: members.reader.memberId };
});

describe('roles', () => {
  it('say what a member may do: read, read and chart, or everything', async () => {
    const statuses = async (person: Person): Promise<number[]> => [
      (await person.get('/v1/players')).status,
      (await person.post('/v1/players', { handle: 'Mossback' })).status,
      (await person.patch(`/v1/members/${ids.reader}`, { role: 'reader' })).status,
    ];
    expect(await statuses(reader)).toEqual([200, 403, 403]);
    expect(await statuses(analyst)).toEqual([200, 201, 403]);
    expect(await statuses(owner)).toEqual([200, 409, 200]);
  });

  it('change at once, also for a session that is remembered', async () => {
    expect(await reader.get('/v1/players')).toMatchObject({ status: 200 });
    expect(await owner.patch(`/v1/members/${ids.reader}`, { role: 'analyst' })).toMatchObject({
      status: 200,
      body: { id: ids.reader, name: 'Teasel', role: 'analyst' },
    });
    expect(await reader.post('/v1/players', { handle: 'Mossback' })).toMatchObject({ status: 201 });
    await owner.patch(`/v1/members/${ids.reader}`, { role: 'reader' });
    expect(await reader.post('/v1/players', { handle: 'Brass Heron' })).toMatchObject({ status: 403 });
  });

  it('never leave a clan without an owner', async () => {
    const needed = { status: 409, body: { code: 'clan.owner_needed' } };
    expect(await owner.patch(`/v1/members/${ids.owner}`, { role: 'analyst' })).toMatchObject(needed);
    expect(await owner.delete(`/v1/members/${ids.owner}`)).toMatchObject(needed);
    expect(await owner.delete(`/v1/memberships/${clan.id}`)).toMatchObject(needed);
    await owner.patch(`/v1/members/${ids.analyst}`, { role: 'owner' });
    expect(await owner.delete(`/v1/memberships/${clan.id}`)).toMatchObject({ status: 204 });
    expect((await analyst.get('/v1/members')).body.items).toMatchObject([{ name: 'Sorrel' }, { name: 'Teasel' }]);
  });

  it('of two owners who step down at the same moment keep one', async () => {
    await owner.patch(`/v1/members/${ids.analyst}`, { role: 'owner' });
    const statuses = await Promise.all([
      owner.patch(`/v1/members/${ids.owner}`, { role: 'reader' }).then(({ status }) => status),
      analyst.patch(`/v1/members/${ids.analyst}`, { role: 'reader' }).then(({ status }) => status),
    ]);
    expect(statuses.sort()).toEqual([200, 409]);
  });

  it('are handed over in one step', async () => {
    expect(await owner.put('/v1/clan/owner', { memberId: ids.analyst })).toMatchObject({ status: 200 });
    expect((await owner.get('/v1/session')).body.rights).toEqual(['read', 'write']);
    expect((await analyst.get('/v1/session')).body.rights).toEqual(['read', 'write', 'manage']);
    expect(await owner.put('/v1/clan/owner', { memberId: ids.owner })).toMatchObject({ status: 403 });
    expect(await api.as(clan).put('/v1/clan/owner').send({ memberId: ids.owner })).toMatchObject({
      status: 403,
      body: { code: 'access.person_needed' },
    });
  });
});

describe('who leaves or is removed', () => {
  it('reads nothing any more, from the next request on, and can still sign in', async () => {
    expect(await analyst.get('/v1/players')).toMatchObject({ status: 200 });
    expect(await owner.delete(`/v1/members/${ids.analyst}`)).toMatchObject({ status: 204 });
    expect(await analyst.get('/v1/players')).toMatchObject({ status: 401 });
    expect(await analyst.get('/v1/session')).toMatchObject({
      status: 200,
      body: { clanId: null, rights: [], clans: [] },
    });
  });

  it('may be a reader, who writes nothing else', async () => {
    expect(await reader.delete(`/v1/memberships/${clan.id}`)).toMatchObject({ status: 204 });
    expect(await reader.delete(`/v1/memberships/${clan.id}`)).toMatchObject({ status: 404 });
    const { rows } = await api.database.owner.query('select action from audit_entry where clan_id = $1', [clan.id]);
    expect(rows).toEqual([{ action: 'member.left' }]);
  });

  it('takes along the keys that were made, and those made with them, but what was written stays', async () => {
    const { owner: sql } = api.database;
    const made = await aKey(sql, clan.id, { made_by: ids.analyst });
    const further = await aKey(sql, clan.id, { made_by: made.keyId });
    const others = await aKey(sql, clan.id, { made_by: ids.owner });
    const point = { about: 'opponent', playerId: await aPlayer(sql, clan), text: 'Goes for it.' };
    const written = await analyst.post('/v1/coaching-points', point);
    expect(written).toMatchObject({ status: 201, body: { writtenBy: 'Sorrel' } });
    await owner.delete(`/v1/members/${ids.analyst}`);
    expect(await api.as(made).get('/v1/players')).toMatchObject({ status: 401 });
    expect(await api.as(further).get('/v1/players')).toMatchObject({ status: 401 });
    expect(await api.as(others).get('/v1/players')).toMatchObject({ status: 200 });
    const kept = { text: 'Goes for it.', writtenBy: 'former member' };
    expect(await owner.get(`/v1/coaching-points/${written.body.id}`)).toMatchObject({ status: 200, body: kept });
  });

  it('leaves nothing behind that nobody could read', async () => {
    const { owner: sql } = api.database;
    const { rows } = await sql.query('select person_scope_id as scope from api_key where id = $1', [ids.analyst]);
    const own = { clan_id: clan.id, id: ids.analyst, scope_id: rows[0].scope };
    await insert(sql, 'menu_call', { ...own, side: 'offense', name: 'Lantern' });
    await owner.delete(`/v1/members/${ids.analyst}`);
    expect((await sql.query('select from menu_call where clan_id = $1', [clan.id])).rowCount).toBe(0);
  });

  it('loses the keys that a lesser role could not make', async () => {
    const { owner: sql } = api.database;
    const writing = await aKey(sql, clan.id, { made_by: ids.analyst, rights: ['read', 'write'] });
    const reading = await aKey(sql, clan.id, { made_by: ids.analyst, rights: ['profiles'] });
    await owner.patch(`/v1/members/${ids.analyst}`, { role: 'reader' });
    expect(await api.as(writing).get('/v1/members')).toMatchObject({ status: 401 });
    expect(await api.as(reading).get('/v1/players')).toMatchObject({ status: 200 });
  });
});

describe('another clan', () => {
  it('sees no members, and its ids are as if they did not exist', async () => {
    const rival = handOf(api, await aClan(api.database.owner));
    expect(await rival.get(`/v1/members/${ids.reader}`)).toMatchObject({ status: 404 });
    expect((await rival.get('/v1/members')).body.items).toEqual([]);
    expect(await rival.delete(`/v1/members/${ids.reader}`)).toMatchObject({ status: 404 });
    expect(await rival.patch(`/v1/members/${ids.reader}`, { role: 'owner' })).toMatchObject({ status: 404 });
  });
});
