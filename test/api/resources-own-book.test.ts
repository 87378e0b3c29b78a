import { randomUUID } from 'node:crypto';
import { aChart, aClan, aGame, aPlay, aPlayer, type TestClan } from '../support/factories.js';
import { handOf, type Hand } from '../support/http.js';
import { startTestApi, type TestApi } from '../support/test-api.js';

let api: TestApi;
let clan: TestClan;
let our: Hand;
let other: Hand;

beforeAll(async () => {
  api = await startTestApi();
});
afterAll(() => api.close());
beforeEach(async () => {
  clan = await aClan(api.database.owner);
  our = handOf(api, clan);
  other = handOf(api, await aClan(api.database.owner));
});

async function hiddenFromOthers(at: string): Promise<void> {
  const answers = [await other.get(at), await other.delete(at), await other.patch(at, {})];
  expect(answers.map(({ status }) => status)).toEqual([404, 404, 404]);
}

describe('a call of the menu', () => {
  it('is installed, read, listed, changed and removed', async () => {
    const facts = { side: 'offense', name: 'Lantern', formation: 'trips', concept: 'mesh' };
    const { at } = await our.made('/v1/menu-calls', facts);
    const { body } = await our.get(at);
    expect(body).toMatchObject({ ...facts, formation: 'three by one', front: null, rehearsed: false });
    await hiddenFromOthers(at);
    expect((await our.get('/v1/menu-calls?side=offense&rehearsed=false')).body.items).toEqual([body]);
    expect((await our.get('/v1/menu-calls?side=defense')).body.items).toEqual([]);
    const changed = await our.patch(at, { rehearsed: true, concept: null });
    expect(changed).toMatchObject({ status: 200, body: { rehearsed: true, concept: null, formation: 'three by one' } });
    expect(await our.patch(at, { concept: 'shoe' })).toMatchObject({
      status: 400,
      body: { errors: [{ field: 'concept' }] },
    });
    expect(await our.post('/v1/menu-calls', facts)).toMatchObject({ status: 409, body: { code: 'resource.taken' } });
    expect((await our.delete(at)).status).toBe(204);
    expect((await our.get(at)).status).toBe(404);
  });
});

describe('a logged call', () => {
  it('is made, read, listed, changed and removed, and keeps the terms nobody touched', async () => {
    const game = await aGame(api.database.owner, clan);
    const menu = await our.made('/v1/menu-calls', { side: 'offense', name: 'Lantern' });
    const facts = { gameId: game.id, orderInGame: 3, side: 'offense', menuCallId: menu.id, callFamily: 'run' };
    const { at, id } = await our.made('/v1/own-calls', facts);
    const { body } = await our.get(at);
    expect(body).toMatchObject({ ...facts, concept: null, note: null });
    await hiddenFromOthers(at);
    expect((await our.get(`/v1/own-calls?gameId=${game.id}`)).body.items).toEqual([body]);
    const one = await our.made('/v1/terms', { kind: 'concept', name: 'Lantern' });
    const two = await our.made('/v1/terms', { kind: 'concept', name: 'Lamp' });
    await our.patch(at, { concept: 'lantern' });
    await our.matched(one.at, our.post(`${one.at}/merger`, { intoId: Number(two.id) }));
    expect((await our.patch(at, { note: 'late' })).body).toMatchObject({ concept: 'Lamp', note: 'late' });
    const { rows } = await api.database.owner.query('select concept from own_call where id = $1', [id]);
    expect(rows).toEqual([{ concept: Number(one.id) }]);
    expect(await our.post('/v1/own-calls', facts)).toMatchObject({ status: 409 });
    expect(await our.post('/v1/own-calls', { ...facts, gameId: randomUUID() })).toMatchObject({ status: 422 });
    expect((await our.delete(at)).status).toBe(204);
    expect((await our.get(at)).status).toBe(404);
  });
});

describe('a coaching point', () => {
  it('is on an opponent, signed, and keeps what it said before', async () => {
    const playerId = await aPlayer(api.database.owner, clan);
    const { at } = await our.made('/v1/coaching-points', { about: 'opponent', playerId, text: 'Blitzes late.' });
    const { body } = await our.get(at);
    expect(body).toMatchObject({ about: 'opponent', playerId, revision: 1, writtenBy: expect.stringContaining('key') });
    await hiddenFromOthers(at);
    expect((await our.get(`/v1/coaching-points?playerId=${playerId}`)).body.items).toEqual([body]);
    expect((await our.patch(at, { text: 'Blitzes early.' })).body).toMatchObject({ revision: 2 });
    expect((await our.get(`${at}/versions`)).body.items).toMatchObject([
      { revision: 2, text: 'Blitzes early.' },
      { revision: 1, text: 'Blitzes late.' },
    ]);
    expect((await our.delete(at)).status).toBe(204);
    expect((await our.get(at)).status).toBe(404);
  });

  it('is on a call, an answer or a play', async () => {
    const chart = await aChart(api.database.owner, clan);
    const playNumber = await aPlay(api.database.owner, clan, { chart });
    for (const point of [
      { about: 'call', concept: 'mesh' },
      { about: 'answer', coverage: 'cover 3', concept: 'mesh' },
      { about: 'play', chartId: chart.id, playNumber },
    ]) {
      const made = await our.post('/v1/coaching-points', { ...point, text: 'Look here.' });
      expect(made).toMatchObject({ status: 201, body: { about: point.about } });
    }
    expect((await our.get('/v1/coaching-points?about=play')).body.items).toHaveLength(1);
  });

  it.each([
    [{ about: 'opponent', text: 'x' }, 422],
    [{ about: 'call', coverage: 'cover 3', text: 'x' }, 422],
    [{ about: 'play', chartId: randomUUID(), playNumber: 1, text: 'x' }, 422],
    [{ about: 'opponent', playerId: randomUUID(), text: 'x' }, 422],
    [{ about: 'shoe', text: 'x' }, 400],
    [{ about: 'call', concept: 'shoe', text: 'x' }, 400],
    [{ about: 'call', concept: 'mesh' }, 400],
  ])('is refused as %j', async (body, status) => {
    expect(await our.post('/v1/coaching-points', body)).toMatchObject({ status });
  });
});

describe('a round report', () => {
  it('is listed and thrown away, and made once where it is asked for twice', async () => {
    const event = await our.made('/v1/events', { reference: 'pond-cup', name: 'Pond Cup' });
    const opponent = await our.made('/v1/players', { handle: 'Mossback' });
    const make = () =>
      our.post('/v1/round-reports', { eventId: event.id, opponentId: opponent.id }).set('Idempotency-Key', 'once');
    const [first, second] = [await make(), await make()];
    expect([first.status, second.status]).toEqual([201, 201]);
    expect(second.body).toEqual(first.body);
    const list = await our.get(`/v1/round-reports?opponentId=${opponent.id}`);
    expect(list.body.items).toMatchObject([{ id: first.body.id, eventId: event.id, opponentId: opponent.id }]);
    expect((await other.get('/v1/round-reports')).body.items).toEqual([]);
    const at = `/v1/round-reports/${String(first.body.id)}`;
    expect((await other.delete(at)).status).toBe(404);
    expect((await our.delete(at)).status).toBe(204);
    expect((await our.get(at)).status).toBe(404);
  });
});
