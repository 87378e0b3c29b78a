import { randomUUID } from 'node:crypto';
import { aClan, type TestClan } from '../support/factories.js';
import { handOf, type Hand } from '../support/http.js';
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

const make = (path: string, body: object, by: TestClan = clan) => api.as(by).post(path).send(body);
const read = (path: string, by: TestClan = clan) => api.as(by).get(path);

async function made(
  path: string,
  body: object,
  by: TestClan = clan,
): Promise<{ id: string; at: string; etag: string }> {
  const response = await make(path, body, by);
  expect(response).toMatchObject({ status: 201 });
  return { id: response.body.id, at: response.headers['location'] ?? '', etag: response.headers['etag'] ?? '' };
}

async function patch(path: string, change: object, by: TestClan = clan) {
  const { headers } = await read(path, by);
  return api
    .as(by)
    .patch(path)
    .set('Content-Type', 'application/merge-patch+json')
    .set('If-Match', headers['etag'] ?? '')
    .send(change);
}

describe('a player', () => {
  it('is made, read, listed, changed and removed', async () => {
    const response = await make('/v1/players', { handle: 'Mossback', aliases: ['moss'] });
    expect(response).toMatchObject({
      status: 201,
      body: { handle: 'Mossback', aliases: ['moss'], linkedPlayerId: null, linkCertain: true, own: true },
    });
    const at = `/v1/players/${response.body.id}`;
    expect(response.headers['location']).toBe(at);
    const whole = await read(at);
    expect(whole.body).toEqual(response.body);
    expect(whole.headers['etag']).toBe(response.headers['etag']);
    expect((await read('/v1/players?name=MOSS')).body.items).toEqual([whole.body]);
    const changed = await patch(at, { handle: 'Moss Back', aliases: ['mb', 'moss'] });
    expect(changed).toMatchObject({ status: 200, body: { handle: 'Moss Back', aliases: ['mb', 'moss'] } });
    expect(changed.headers['etag']).not.toBe(whole.headers['etag']);
    expect((await patch(at, { aliases: null })).body.aliases).toEqual([]);
    expect((await our.delete(at)).status).toBe(204);
    expect((await read(at)).status).toBe(404);
  });

  it('is not changed without saying what the change was made from', async () => {
    const { at, etag } = await made('/v1/players', { handle: 'Mossback' });
    expect(await api.as(clan).patch(at).send({ handle: 'Other' })).toMatchObject({
      status: 428,
      body: { code: 'request.precondition_required' },
    });
    const stale = await api.as(clan).patch(at).set('If-Match', '"other"').send({ handle: 'Other' });
    expect(stale).toMatchObject({ status: 412, body: { code: 'request.precondition_failed' } });
    const removal = await api.as(clan).delete(at).set('If-Match', '"other"');
    expect(removal.status).toBe(412);
    expect((await api.as(clan).delete(at).set('If-Match', etag)).status).toBe(204);
  });

  it('loses no update: of two changes made from the same state one is refused', async () => {
    const { at, etag } = await made('/v1/players', { handle: 'Mossback' });
    const change = (handle: string) => api.as(clan).patch(at).set('If-Match', etag).send({ handle });
    const answers = await Promise.all(['One', 'Two', 'Three', 'Four'].map(change));
    expect(answers.map(({ status }) => status).sort()).toEqual([200, 412, 412, 412]);
  });

  it('goes by names that nobody else has, and links to somebody who is there', async () => {
    await made('/v1/players', { handle: 'Mossback', aliases: ['moss'] });
    for (const body of [{ handle: 'mossback' }, { handle: 'MOSS' }, { handle: 'New', aliases: ['Mossback'] }]) {
      expect(await make('/v1/players', body)).toMatchObject({ status: 409, body: { code: 'resource.taken' } });
    }
    expect(await make('/v1/players', { handle: 'New', linkedPlayerId: randomUUID() })).toMatchObject({
      status: 422,
      body: { code: 'resource.reference_unknown', errors: [{ field: 'linkedPlayerId' }] },
    });
  });

  it('is linked one level deep, with certainty', async () => {
    const main = await made('/v1/players', { handle: 'Mossback' });
    const second = await make('/v1/players', { handle: 'Mossback two', linkedPlayerId: main.id, linkCertain: false });
    expect(second.body).toMatchObject({ linkedPlayerId: main.id, linkCertain: false });
    const third = await make('/v1/players', { handle: 'Mossback three', linkedPlayerId: second.body.id });
    expect(third).toMatchObject({
      status: 422,
      body: { code: 'resource.inconsistent', errors: [{ field: 'linkedPlayerId' }] },
    });
    const own = await patch(main.at, { linkedPlayerId: main.id });
    expect(own).toMatchObject({ status: 422, body: { errors: [{ field: 'linkedPlayerId' }] } });
  });

  it('that a game or an event needs is not removed', async () => {
    const { id, at } = await made('/v1/players', { handle: 'Mossback' });
    const event = await made('/v1/events', { reference: 'pond-cup', name: 'Pond Cup' });
    await made(`${event.at}/entrants`, { playerId: id });
    expect(await our.delete(at)).toMatchObject({ status: 409, body: { code: 'resource.in_use' } });
  });
});

describe('an event', () => {
  it('is made, read, listed, changed and removed with its entrants and matches', async () => {
    const event = await made('/v1/events', { reference: 'pond-cup', name: 'Pond Cup', gradeScale: ['low', 'high'] });
    const players = [await made('/v1/players', { handle: 'A' }), await made('/v1/players', { handle: 'B' })];
    const [home, away] = await Promise.all(
      players.map(({ id }, place) =>
        made(`${event.at}/entrants`, { playerId: id, seed: place + 1, unitGrades: { line: 'high' } }),
      ),
    );
    const match = await made(`${event.at}/matches`, {
      ...{ round: 1, position: 1, homeEntrantId: home?.id, awayEntrantId: away?.id },
      ...{ scheduledAt: '2026-03-01T20:00:00+02:00' },
    });
    expect((await read(match.at)).body).toMatchObject({ status: 'open', scheduledAt: '2026-03-01T18:00:00Z' });
    expect((await read(`${event.at}/entrants`)).body.items).toHaveLength(2);
    expect((await read(`${event.at}/bracket`)).body.matches).toMatchObject([{ home: 'A', away: 'B' }]);
    const won = await our.result(match.at, { winner: 'home' });
    expect(won).toMatchObject({ status: 200, body: { status: 'finished', winnerEntrantId: home?.id } });
    const beside = { round: 2, position: 1, winnerEntrantId: home?.id };
    expect(await make(`${event.at}/matches`, beside)).toMatchObject({
      status: 422,
      body: { errors: [{ field: 'winnerEntrantId' }] },
    });
    expect(await patch(home?.at ?? '', { unitGrades: { line: 'none' } })).toMatchObject({
      status: 400,
      body: { errors: [{ field: 'unitGrades.line', expected: 'one of: low, high' }] },
    });
    expect((await patch(home?.at ?? '', { unitGrades: { line: null, backs: 'low' } })).body.unitGrades).toEqual({
      backs: 'low',
    });
    expect(await patch(event.at, { gradeScale: ['a', 'b'] })).toMatchObject({ status: 409 });
    expect(await patch(event.at, { status: 'running', endsOn: '2026-03-09' })).toMatchObject({
      status: 200,
      body: { status: 'running', endsOn: '2026-03-09', name: 'Pond Cup' },
    });
    expect((await read('/v1/events?status=running&own=true')).body.items).toHaveLength(1);
    expect((await read('/v1/events?status=finished')).body.items).toEqual([]);
    expect(await our.delete(home?.at ?? '')).toMatchObject({ status: 409 });
    for (const at of [match.at, home?.at ?? '', event.at]) expect((await our.delete(at)).status).toBe(204);
    expect((await read(event.at)).status).toBe(404);
  });

  it.each([
    [{ reference: 'Pond Cup', name: 'x' }, 'reference'],
    [{ reference: 'pond', name: '' }, 'name'],
    [{ reference: 'pond', name: 'x', startsOn: '2026-02-30' }, 'startsOn'],
    [{ reference: 'pond', name: 'x', colour: 'red' }, 'colour'],
  ])('refuses %j', async (body, field) => {
    expect(await make('/v1/events', body)).toMatchObject({
      status: 400,
      body: { code: 'request.invalid', errors: expect.arrayContaining([expect.objectContaining({ field })]) },
    });
  });

  it('that ends before it starts contradicts itself', async () => {
    const body = { reference: 'pond', name: 'x', startsOn: '2026-03-02', endsOn: '2026-03-01' };
    expect(await make('/v1/events', body)).toMatchObject({ status: 422, body: { errors: [{ field: 'endsOn' }] } });
  });

  it('that another clan published is adopted with its people and matches, and survives the withdrawal', async () => {
    const archive = await aClan(api.database.owner);
    const event = await made('/v1/events', { reference: 'pond-cup', name: 'Pond Cup' }, archive);
    const entrants = [];
    for (const handle of ['A', 'B']) {
      const { id: playerId } = await made('/v1/players', { handle }, archive);
      entrants.push(await made(`${event.at}/entrants`, { playerId, seed: entrants.length + 1 }, archive));
    }
    const [home, away] = entrants;
    const match = {
      round: 1,
      position: 1,
      homeEntrantId: home?.id,
      awayEntrantId: away?.id,
      winnerEntrantId: home?.id,
    };
    await made(`${event.at}/matches`, match, archive);
    await handOf(api, archive).show(event.at, 'public');
    await made('/v1/players', { handle: 'a' });
    const adopted = await make(`${event.at}/adoption`, {});
    expect(adopted).toMatchObject({ status: 201, body: { reference: 'pond-cup', sourceId: event.id, own: true } });
    const at = adopted.headers['location'] ?? '';
    await handOf(api, archive).show(event.at, 'private');
    expect((await read(event.at)).status).toBe(404);
    const bracket = await read(`${at}/bracket`);
    expect(bracket.body.matches).toMatchObject([{ home: expect.stringMatching(/^A /), away: 'B' }]);
    expect(bracket.body.matches[0].winnerPlayerId).toBe(bracket.body.matches[0].homePlayerId);
    expect((await read('/v1/players')).body.items).toHaveLength(3);
    expect(await make(`${event.at}/adoption`, {})).toMatchObject({ status: 404 });
  });
});

describe('a list', () => {
  it('comes in pages that lead to each other', async () => {
    for (const handle of ['A', 'B', 'C', 'D', 'E']) await made('/v1/players', { handle });
    const seen: string[] = [];
    let at: string | undefined = '/v1/players?limit=2&fields=handle';
    while (at !== undefined) {
      const { body, headers }: Awaited<ReturnType<typeof read>> = await read(at);
      const items: { handle: string }[] = body.items;
      seen.push(...items.map(({ handle }) => handle));
      expect(items.every((item) => Object.keys(item).join() === 'handle')).toBe(true);
      at = /^<(.+)>; rel="next"$/.exec(headers['link'] ?? '')?.[1];
      expect(at === undefined).toBe(body.next === null);
    }
    expect(seen).toEqual(['A', 'B', 'C', 'D', 'E']);
  });

  it.each(['/v1/players?limit=0', '/v1/players?colour=red', '/v1/players?fields=shoe', '/v1/events?own=maybe'])(
    'refuses %s',
    async (path) => {
      expect(await read(path)).toMatchObject({ status: 400, body: { code: 'request.invalid' } });
    },
  );
});

describe('what was read before', () => {
  it('is not sent again while it is the same', async () => {
    const { at, etag } = await made('/v1/players', { handle: 'Mossback' });
    expect((await read(at).set('If-None-Match', etag)).status).toBe(304);
    expect((await read(`${at}?fields=id,handle`)).headers['etag']).toBe(etag);
    const list = await read('/v1/players');
    expect((await read('/v1/players').set('If-None-Match', list.headers['etag'] ?? '')).status).toBe(304);
    await patch(at, { handle: 'Other' });
    expect((await read(at).set('If-None-Match', etag)).status).toBe(200);
  });

  it('is asked for by fields that exist', async () => {
    const { at } = await made('/v1/players', { handle: 'Mossback' });
    expect((await read(`${at}?fields=handle`)).body).toEqual({ handle: 'Mossback' });
    expect(await read(`${at}?fields=handle,shoe`)).toMatchObject({
      status: 400,
      body: { errors: [{ found: 'shoe' }] },
    });
    expect(await read(`${at}?colour=red`)).toMatchObject({ status: 400 });
  });
});

describe('a creation that is sent twice', () => {
  const send = (key: string, body: object) => make('/v1/players', body).set('Idempotency-Key', key);

  it('happens once, and is answered the same', async () => {
    const [first, second] = await Promise.all([send('k', { handle: 'A' }), send('k', { handle: 'A' })]);
    const third = await send('k', { handle: 'A' });
    expect(first.status).toBe(201);
    for (const again of [second, third]) {
      expect(again).toMatchObject({ status: 201, body: first.body });
      expect(again.headers['etag']).toBe(first.headers['etag']);
      expect(again.headers['location']).toBe(first.headers['location']);
    }
    expect((await read('/v1/players')).body.items).toHaveLength(1);
  });

  it('with another body is refused, and one that failed may be tried again', async () => {
    await made('/v1/players', { handle: 'A' });
    expect((await send('k', { handle: 'A' })).status).toBe(409);
    expect((await send('k', { handle: 'B' })).status).toBe(201);
    expect(await send('k', { handle: 'C' })).toMatchObject({ status: 422, body: { code: 'request.key_reused' } });
  });
});

describe('what another clan keeps', () => {
  it('is not there, whatever is asked of it', async () => {
    const event = await made('/v1/events', { reference: 'pond-cup', name: 'Pond Cup' });
    const player = await made('/v1/players', { handle: 'A' });
    const entrant = await made(`${event.at}/entrants`, { playerId: player.id });
    const match = await made(`${event.at}/matches`, { round: 1, position: 1 });
    const other = await aClan(api.database.owner);
    for (const { at, etag } of [event, player, entrant, match]) {
      const answers = [
        await read(at, other),
        await api.as(other).patch(at).set('If-Match', etag).send({}),
        await handOf(api, other).delete(at),
      ];
      expect(answers.map(({ status }) => status)).toEqual([404, 404, 404]);
    }
    for (const path of ['entrants', 'matches', 'adoption']) {
      const body = path === 'matches' ? { round: 2, position: 1 } : { playerId: player.id };
      expect(await make(`${event.at}/${path}`, path === 'adoption' ? {} : body, other)).toMatchObject({ status: 404 });
    }
    expect(await make(`${player.at}/adoption`, {}, other)).toMatchObject({ status: 404 });
    expect((await read('/v1/events', other)).body.items).toEqual([]);
  });
});
