import { aClan, type TestClan } from '../support/factories.js';
import { handOf, type Hand, type Made } from '../support/http.js';
import { startTestApi, type TestApi } from '../support/test-api.js';

let api: TestApi;
let clan: TestClan;
let our: Hand;

beforeAll(async () => {
  api = await startTestApi();
});
afterAll(() => api.close());
beforeEach(async () => {
  clan = await aClan(api.database.owner);
  our = handOf(api, clan);
});

async function starter(word: string, by: Hand = our): Promise<{ id: number; name: string; at: string }> {
  const { body } = await by.get(`/v1/terms?kind=formation&word=${encodeURIComponent(word)}`);
  const { id, name } = body.items[0] as { id: number; name: string };
  return { id, name, at: `/v1/terms/${id}` };
}

async function aChart(by: Hand = our): Promise<Made> {
  const home = await by.made('/v1/players', { handle: 'Brass Heron' });
  const away = await by.made('/v1/players', { handle: 'Mossback' });
  const facts = { reference: 'pond-1', importance: 'group', homePlayerId: home.id, awayPlayerId: away.id };
  const game = await by.made('/v1/games', facts);
  return by.made('/v1/charts', { gameId: game.id, reference: 'main' });
}

const play = (formation: string) => ({ offense: 'home', playType: 'scrimmage', formation });

describe('a term', () => {
  it('is made, read, listed and changed, and its words are found', async () => {
    const trips = await starter('trips');
    const facts = { kind: 'formation', name: 'Lantern right', starterId: trips.id, synonyms: ['LAN', 'l-right'] };
    const { body, headers } = await our.post('/v1/terms', facts);
    expect(body).toMatchObject({
      ...{ kind: 'formation', code: null, name: 'Lantern right', starterId: trips.id, synonyms: ['l right', 'lan'] },
      ...{ starterSynonyms: [], retired: false, mergedIntoId: null, own: true },
    });
    const at = headers['location'] ?? '';
    expect((await our.get(at)).body).toEqual(body);
    expect((await our.get('/v1/terms?own=true')).body.items).toEqual([body]);
    expect((await our.get('/v1/terms?kind=formation&word=lan')).body.items).toEqual([body]);
    const chart = await aChart();
    expect((await our.post(`${chart.at}/plays`, play('lan'))).body.formation).toBe('Lantern right');
    const changed = await our.patch(at, { name: 'Lantern', synonyms: null, meaning: 'three to the right' });
    expect(changed).toMatchObject({ status: 200, body: { name: 'Lantern', synonyms: [], starterId: trips.id } });
    expect((await our.get(`${chart.at}/plays/1`)).body.formation).toBe('Lantern');
    expect((await our.post(`${chart.at}/plays`, play('lan'))).status).toBe(400);
    expect((await our.delete(at)).status).toBe(404);
  });

  it('is retired without losing the plays that carry it', async () => {
    const { at } = await our.made('/v1/terms', { kind: 'formation', name: 'Lantern' });
    const chart = await aChart();
    await our.made(`${chart.at}/plays`, play('lantern'));
    expect((await our.patch(at, { retired: true })).body).toMatchObject({ retired: true, name: 'Lantern' });
    expect((await our.get(`${chart.at}/plays/1`)).body.formation).toBe('Lantern (retired)');
    expect((await our.post(`${chart.at}/plays`, play('lantern'))).status).toBe(400);
    expect((await our.patch(`${chart.at}/plays/1`, { down: 1 })).body).toMatchObject({
      formation: 'Lantern (retired)',
    });
    expect((await our.patch(at, { retired: null })).body.retired).toBe(false);
    expect((await our.post(`${chart.at}/plays`, play('lantern'))).status).toBe(201);
  });

  it('is merged and separated again without rewriting a play', async () => {
    const one = await our.made('/v1/terms', { kind: 'formation', name: 'Lantern', synonyms: ['lan'] });
    const other = await our.made('/v1/terms', { kind: 'formation', name: 'Lamp' });
    const chart = await aChart();
    await our.made(`${chart.at}/plays`, play('lantern'));
    const stored = async (): Promise<unknown> =>
      (await api.database.owner.query('select formation from play where chart_id = $1', [chart.id])).rows;
    const before = await stored();
    const scope = async (): Promise<unknown> =>
      (await api.database.owner.query('select revision from scope where clan_id = $1', [clan.id])).rows;
    const revision = await scope();
    const merged = await our.matched(one.at, our.post(`${one.at}/merger`, { intoId: Number(other.id) }));
    expect(merged).toMatchObject({ status: 200, body: { mergedIntoId: Number(other.id) } });
    expect(await scope()).not.toEqual(revision);
    const at = `${chart.at}/plays/1`;
    expect((await our.get(at)).body.formation).toBe('Lamp');
    expect((await our.get(`${chart.at}/plays?formation=lan`)).body.items).toHaveLength(1);
    expect((await our.patch(at, { down: 2 })).body).toMatchObject({ formation: 'Lamp', down: 2 });
    expect(await stored()).toEqual(before);
    expect((await our.matched(one.at, api.as(clan).delete(`${one.at}/merger`))).body).toMatchObject({
      mergedIntoId: null,
    });
    expect((await our.get(at)).body.formation).toBe('Lantern');
  });

  it('is merged into a living term of its kind alone', async () => {
    const one = await our.made('/v1/terms', { kind: 'formation', name: 'Lantern' });
    const front = await our.made('/v1/terms', { kind: 'front', name: 'Lantern' });
    for (const intoId of [Number(front.id), Number(one.id)]) {
      expect(await our.matched(one.at, our.post(`${one.at}/merger`, { intoId }))).toMatchObject({ status: 422 });
    }
    expect(await our.matched(one.at, our.post(`${one.at}/merger`, { intoId: 999_999 }))).toMatchObject({ status: 404 });
    const trips = await starter('trips');
    expect(await our.matched(trips.at, our.post(`${trips.at}/merger`, { intoId: Number(one.id) }))).toMatchObject({
      status: 422,
      body: { code: 'term.fixed' },
    });
  });

  it.each([
    [{ kind: 'formation', name: '' }, 400, 'request.invalid'],
    [{ kind: 'shoe', name: 'x' }, 400, 'request.invalid'],
    [{ kind: 'formation', name: 'x', starterId: 999_999 }, 422, 'resource.reference_unknown'],
    [{ kind: 'formation', name: 'x', parentId: 999_999 }, 422, 'resource.reference_unknown'],
    [{ kind: 'formation', name: 'taken' }, 409, 'resource.taken'],
    [{ kind: 'formation', name: 'x', synonyms: ['Taken'] }, 409, 'term.word_taken'],
  ])('is refused as %j', async (body, status, code) => {
    await our.made('/v1/terms', { kind: 'formation', name: 'Taken' });
    expect(await our.post('/v1/terms', body)).toMatchObject({ status, body: { code } });
  });
});

describe('a starter term', () => {
  it('takes words of a clan, which no other clan gets to know', async () => {
    const trips = await starter('trips');
    const changed = await our.patch(trips.at, { synonyms: ['tree'] });
    expect(changed).toMatchObject({ status: 200, body: { synonyms: ['tree'], own: false } });
    const chart = await aChart();
    expect((await our.post(`${chart.at}/plays`, play('tree'))).body.formation).toBe(trips.name);
    const other = handOf(api, await aClan(api.database.owner));
    expect((await other.get(trips.at)).body.synonyms).toEqual([]);
    const theirs = await aChart(other);
    expect((await other.post(`${theirs.at}/plays`, play('tree'))).status).toBe(400);
  });

  it('is otherwise what it is for every clan', async () => {
    const trips = await starter('trips');
    const bunch = await starter('bunch');
    expect(await our.patch(trips.at, { name: 'Other' })).toMatchObject({ status: 422, body: { code: 'term.fixed' } });
    expect(await our.patch(trips.at, { synonyms: [bunch.name] })).toMatchObject({
      status: 409,
      body: { code: 'term.word_taken' },
    });
  });
});

describe("another clan's term", () => {
  it('is not there, and its plays are read through the starter term it stands for', async () => {
    const archive = await aClan(api.database.owner);
    const their = handOf(api, archive);
    const trips = await starter('trips', their);
    const mapped = await their.made('/v1/terms', { kind: 'formation', name: 'Lantern', starterId: trips.id });
    await their.made('/v1/terms', { kind: 'formation', name: 'Secret' });
    const event = await their.made('/v1/events', { reference: 'pond-cup', name: 'Pond Cup' });
    const chart = await aChart(their);
    const { body } = await their.get(chart.at);
    await their.patch(`/v1/games/${body.gameId}`, { eventId: event.id });
    await their.made(`${chart.at}/plays`, play('lantern'));
    await their.made(`${chart.at}/plays`, play('secret'));
    await handOf(api, archive).show(event.at, 'public');
    expect((await our.get(mapped.at)).status).toBe(404);
    expect((await api.as(clan).patch(mapped.at).set('If-Match', mapped.etag).send({})).status).toBe(404);
    expect((await our.get(`${chart.at}/plays`)).body.items).toMatchObject([
      { formation: trips.name, foreign: [] },
      { formation: null, foreign: ['formation'] },
    ]);
  });
});
