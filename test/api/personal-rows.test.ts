import { aClan, aGame, aMember, aPlayer, type TestClan } from '../support/factories.js';
import { handOf } from '../support/http.js';
import { aReport, Rows } from '../support/isolation/rows.js';
import { CHEAP_PASSPHRASES, signedIn, type Person } from '../support/person.js';
import { startTestApi, type TestApi } from '../support/test-api.js';

let api: TestApi;
let clan: TestClan;
let marlow: Person;
let sorrel: Person;

beforeAll(async () => {
  api = await startTestApi({ passphrase: CHEAP_PASSPHRASES });
});
afterAll(() => api.close());
beforeEach(async () => {
  clan = await aClan(api.database.owner);
  marlow = await signedIn(api, await aMember(api.database.owner, clan.id, 'analyst'));
  // Even an owner: what is for one person is for nobody else.
  sorrel = await signedIn(api, await aMember(api.database.owner, clan.id, 'owner'));
});

interface Kept {
  readonly what: string;
  readonly path: string;
  readonly input: (rows: Rows) => Promise<object>;
}

const KEPT: readonly Kept[] = [
  {
    ...{ what: 'an own call', path: '/v1/own-calls' },
    input: async (rows) => ({ gameId: (await aGame(rows.sql, rows.clan)).id, orderInGame: 1, side: 'offense' }),
  },
  {
    ...{ what: 'a coaching point', path: '/v1/coaching-points' },
    input: async (rows) => ({ about: 'opponent', playerId: await aPlayer(rows.sql, rows.clan), text: 'Blitzes late.' }),
  },
  { ...{ what: 'a round report', path: '/v1/round-reports' }, input: aReport },
];

describe.each(KEPT)('$what for one person alone', ({ path, input }) => {
  it('is there for that person and for nobody else of the clan, by list, id, change or removal', async () => {
    const made = await marlow.post(path, { ...(await input(new Rows(api, clan))), visibleTo: 'me' });
    expect(made).toMatchObject({ status: 201 });
    const { id }: { id: string } = made.body;
    expect((await marlow.get(path)).body.items).toMatchObject([{ id, visibleTo: 'me' }]);
    for (const other of [sorrel, handOf(api, clan)]) {
      expect((await other.get(path)).body.items).toEqual([]);
      expect(await other.get(`${path}/${id}`)).toMatchObject({ status: 404 });
      expect(await other.delete(`${path}/${id}`)).toMatchObject({ status: 404 });
    }
    expect(await marlow.delete(`${path}/${id}`)).toMatchObject({ status: 204 });
  });

  it('is not for a program that stands for no person, but for a personal key of that person', async () => {
    const send = { ...(await input(new Rows(api, clan))), visibleTo: 'me' };
    const refused = await api.as(clan).post(path).send(send);
    expect(refused).toMatchObject({ status: 403, body: { code: 'access.person_needed' } });
    expect(await marlow.post(path, send)).toMatchObject({ status: 201 });
    const key = async (personal: boolean): Promise<{ key: string }> =>
      (await marlow.post('/v1/keys', { name: 'bot', scopes: ['read'], personal })).body as { key: string };
    expect((await api.as(await key(true)).get(path)).body.items).toHaveLength(1);
    expect((await api.as(await key(false)).get(path)).body.items).toHaveLength(0);
  });
});

describe('an own call', () => {
  it('of the same snap may be kept by two people, neither of whom learns of the other', async () => {
    const call = { gameId: (await aGame(api.database.owner, clan)).id, orderInGame: 1, side: 'offense' };
    for (const person of [marlow, sorrel]) {
      expect(await person.post('/v1/own-calls', { ...call, visibleTo: 'me' })).toMatchObject({ status: 201 });
    }
    expect(await marlow.post('/v1/own-calls', call)).toMatchObject({ status: 201, body: { visibleTo: 'clan' } });
    expect(await sorrel.post('/v1/own-calls', call)).toMatchObject({ status: 409 });
    expect(await marlow.post('/v1/own-calls', { ...call, visibleTo: 'me' })).toMatchObject({ status: 409 });
  });

  it('can be shown to the clan later, and a coaching point with what it said before', async () => {
    const point = { about: 'opponent', playerId: await aPlayer(api.database.owner, clan), text: 'Blitzes late.' };
    const { body } = await marlow.post('/v1/coaching-points', { ...point, visibleTo: 'me' });
    const at = `/v1/coaching-points/${String(body.id)}`;
    expect(await marlow.patch(at, { text: 'Blitzes early.' })).toMatchObject({
      status: 200,
      body: { visibleTo: 'me' },
    });
    expect(await marlow.patch(at, { visibleTo: 'clan' })).toMatchObject({ status: 200, body: { visibleTo: 'clan' } });
    expect((await sorrel.get(`${at}/versions`)).body.items).toHaveLength(3);
  });
});
