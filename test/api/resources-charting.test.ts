import { randomUUID } from 'node:crypto';
import { unpackPlays } from '#domain/charting/packed-plays.js';
import { columnsFromPlays } from '#domain/charting/play-columns.js';
import { playsOfColumns } from '#domain/charting/reconcile-plays.js';
import { aClan, type TestClan } from '../support/factories.js';
import { handOf, type Hand, type Made } from '../support/http.js';
import { startTestApi, type TestApi } from '../support/test-api.js';

let api: TestApi;
let clan: TestClan;
let our: Hand;

beforeAll(async () => {
  api = await startTestApi({ clanGamesMost: 3, clanPlaysMost: 8 });
});
afterAll(() => api.close());
beforeEach(async () => {
  clan = await aClan(api.database.owner);
  our = handOf(api, clan);
});

interface Pairing {
  readonly home: Made;
  readonly away: Made;
  readonly game: Made;
}

async function aPairing(by: Hand = our, more: object = {}): Promise<Pairing> {
  const home = await by.made('/v1/players', { handle: 'Brass Heron' });
  const away = await by.made('/v1/players', { handle: 'Mossback' });
  const facts = { reference: 'pond-1', importance: 'group', homePlayerId: home.id, awayPlayerId: away.id, ...more };
  return { home, away, game: await by.made('/v1/games', facts) };
}

async function aChartOf(game: Made, by: Hand = our, reference = 'main'): Promise<Made> {
  return by.made('/v1/charts', { gameId: game.id, reference });
}

const A_PLAY = { offense: 'home', playType: 'scrimmage', down: 1, distance: 10, yardsToGoal: 75, formation: 'trips' };

async function packOf(chart: Made): Promise<{ revision: number; plays: ReturnType<typeof playsOfColumns> }> {
  const { rows } = await api.database.owner.query<{ revision: number; bytes: Buffer }>(
    `select p.revision, p.bytes from chart_pack p join chart c on c.clan_id = p.clan_id and c.id = p.chart_id
      where p.chart_id = $1 and p.revision = c.revision and p.plays = c.plays`,
    [chart.id],
  );
  const [row] = rows;
  if (row === undefined) throw new Error('the chart has no packed copy of its revision');
  return { revision: row.revision, plays: playsOfColumns(unpackPlays(row.bytes, { chartId: chart.id, gameId: '' })) };
}

describe('a game', () => {
  it('is made, read, listed, changed and removed, with its film in the order given', async () => {
    const videos = ['a', 'b', 'c'].map((name) => ({ kind: 'neutral', url: `https://film.example/${name}` }));
    const { game, home, away } = await aPairing(our, { videos, settings: { fouls: 'on' }, quarterMinutes: 4 });
    const { body } = await our.get(game.at);
    expect(body).toMatchObject({
      ...{ home: 'Brass Heron', away: 'Mossback', quarterMinutes: 4, settings: { fouls: 'on' }, ending: 'completed' },
      ...{ videos: videos.map((video) => ({ ...video, offsetSeconds: 0 })), charts: [], own: true },
    });
    expect((await our.get(`/v1/games?playerId=${home.id}&importance=group&own=true`)).body.items).toEqual([body]);
    expect((await our.get('/v1/games?importance=elimination')).body.items).toEqual([]);
    const changed = await our.patch(game.at, { homeScore: 21, settings: { fouls: null, wind: 'on' }, videos: null });
    expect(changed).toMatchObject({ status: 200, body: { homeScore: 21, settings: { wind: 'on' }, videos: [] } });
    expect(await our.patch(game.at, { awayPlayerId: home.id })).toMatchObject({ status: 422 });
    expect(await our.patch(game.at, { eventId: randomUUID() })).toMatchObject({
      status: 422,
      body: { code: 'resource.reference_unknown', errors: [{ field: 'eventId' }] },
    });
    expect((await our.delete(game.at)).status).toBe(204);
    expect((await our.get(game.at)).status).toBe(404);
    expect((await our.delete(away.at)).status).toBe(204);
  });

  it('is read by whoever reads its event, and no longer when it leaves it', async () => {
    const event = await our.made('/v1/events', { reference: 'pond-cup', name: 'Pond Cup' });
    const { game } = await aPairing(our, { eventId: event.id });
    await aChartOf(game);
    await our.show(event.at, 'public');
    const other = handOf(api, await aClan(api.database.owner));
    expect((await other.get(game.at)).body).toMatchObject({ own: false, charts: [{ reference: 'main' }] });
    expect((await our.patch(game.at, { eventId: null })).status).toBe(200);
    expect((await other.get(game.at)).status).toBe(404);
  });

  it('is refused when the clan keeps as many as it may', async () => {
    const { home, away } = await aPairing();
    const facts = { importance: 'group', homePlayerId: home.id, awayPlayerId: away.id };
    await our.made('/v1/games', { ...facts, reference: 'pond-2' });
    await our.made('/v1/games', { ...facts, reference: 'pond-3' });
    expect(await our.post('/v1/games', { ...facts, reference: 'pond-4' })).toMatchObject({
      status: 403,
      body: { code: 'clan.quota_reached' },
    });
  });

  it('whose players change places keeps whose ball it was', async () => {
    const { game, home, away } = await aPairing();
    const chart = await aChartOf(game);
    await our.made(`${chart.at}/plays`, A_PLAY);
    await our.patch(game.at, { homePlayerId: away.id, awayPlayerId: home.id });
    expect((await our.get(`${chart.at}/plays/1`)).body).toMatchObject({ offense: 'away', offensePlayerId: home.id });
    expect((await packOf(chart)).plays).toMatchObject([{ offenseIsHome: false }]);
  });
});

describe('a chart', () => {
  it('says which plays do not follow from the play before, as its plays are now', async () => {
    const { game } = await aPairing();
    const chart = await aChartOf(game);
    const at = `${chart.at}/continuity`;
    await our.made(`${chart.at}/plays`, { ...A_PLAY, snapResult: 'rushed', yardsGained: 6 });
    await our.made(`${chart.at}/plays`, { ...A_PLAY, down: 2, distance: 4, yardsToGoal: 69 });
    const follows = await our.get(at);
    expect(follows).toMatchObject({ status: 200, body: { chartId: chart.id, breaks: [] } });
    await our.patch(`${chart.at}/plays/2`, { down: 3 });
    const broken = await our.get(at);
    expect(broken.body).toEqual({
      chartId: chart.id,
      revision: 4,
      breaks: [
        {
          ...{ playNumber: 2, orderInGame: 2, previousPlayNumber: 1, field: 'down', found: '3', expected: '2' },
          message: 'the down is 3, but 2 follows from play 1',
        },
      ],
    });
    expect(broken.headers['etag']).not.toBe(follows.headers['etag']);
    // With first and third downs charted and no others, the two need not be neighbours.
    await our.patch(chart.at, { filmScope: { downs: [1, 3] } });
    expect((await our.get(at)).body).toMatchObject({ revision: 5, breaks: [] });
    const other = handOf(api, await aClan(api.database.owner));
    expect(await other.get(at)).toMatchObject({ status: 404 });
  });

  it('is begun empty, read, listed, changed and removed', async () => {
    const { game } = await aPairing();
    const chart = await aChartOf(game);
    const { body } = await our.get(chart.at);
    expect(body).toMatchObject({
      ...{ gameId: game.id, reference: 'main', kind: 'charted', plays: 0, revision: 1 },
      filmScope: { offense: null, downs: null, quarters: null, fields: null },
    });
    expect((await packOf(chart)).plays).toEqual([]);
    expect((await our.get(`/v1/charts?gameId=${game.id}`)).body.items).toEqual([body]);
    const changed = await our.patch(chart.at, { chartedBy: 'the analyst', filmScope: { downs: [3, 4] } });
    expect(changed).toMatchObject({
      status: 200,
      body: { chartedBy: 'the analyst', revision: 2, filmScope: { offense: null, downs: [3, 4] } },
    });
    expect(await our.patch(chart.at, { filmScope: { fields: ['shoe'] } })).toMatchObject({ status: 400 });
    expect(await our.post('/v1/charts', { gameId: game.id, reference: 'main' })).toMatchObject({ status: 409 });
    expect(await our.post('/v1/charts', { gameId: randomUUID(), reference: 'main' })).toMatchObject({ status: 422 });
    expect((await our.delete(chart.at)).status).toBe(204);
    expect((await our.get(chart.at)).status).toBe(404);
  });

  it('that was made of others is changed through them alone', async () => {
    const { game } = await aPairing();
    const first = await aChartOf(game, our, 'first');
    const second = await aChartOf(game, our, 'second');
    await our.made(`${first.at}/plays`, A_PLAY);
    await our.made(`${second.at}/plays`, { ...A_PLAY, coverage: 'cover 3' });
    const charts: { id: string; kind: string; plays: number }[] = (await our.get('/v1/charts')).body.items;
    const reconciled = charts.find(({ kind }) => kind === 'reconciled');
    expect(reconciled).toMatchObject({ plays: 1 });
    const at = `/v1/charts/${reconciled?.id ?? ''}`;
    expect((await our.get(`${at}/plays`)).body.items).toMatchObject([
      { formation: 'three by one', coverage: 'cover 3' },
    ]);
    for (const refused of [
      await our.post(`${at}/plays`, A_PLAY),
      await our.patch(`${at}/plays/1`, { down: 2 }),
      await our.patch(at, { chartedBy: 'me' }),
      await our.delete(at),
    ]) {
      expect(refused).toMatchObject({ status: 409, body: { code: 'chart.reconciled' } });
    }
    await our.patch(`${second.at}/plays/1`, { coverage: 'cover 2' });
    expect((await our.get(`${at}/plays`)).body.items).toMatchObject([{ coverage: 'cover 2' }]);
  });
});

describe('a play', () => {
  let pairing: Pairing;
  let chart: Made;
  beforeEach(async () => {
    pairing = await aPairing();
    chart = await aChartOf(pairing.game);
  });

  it('is added, read, changed and removed, and every change reaches revision and packed copy', async () => {
    const { body, headers } = await our.post(`${chart.at}/plays`, A_PLAY);
    expect(headers['location']).toBe(`${chart.at}/plays/1`);
    expect(body).toMatchObject({
      ...{
        chartId: chart.id,
        gameId: pairing.game.id,
        playNumber: 1,
        orderInGame: 1,
        formation: 'three by one',
        down: 1,
      },
      ...{ offense: 'home', offensePlayerId: pairing.home.id, defensePlayerId: pairing.away.id, coverage: null },
    });
    const at = `${chart.at}/plays/1`;
    const read = await our.get(at);
    expect(read.body).toEqual(body);
    expect(read.headers['etag']).toBe(headers['etag']);
    await our.made(`${chart.at}/plays`, { ...A_PLAY, offense: 'away', orderInGame: 7, ledTo: ['touchdown, offense'] });
    const changed = await our.patch(at, {
      formation: '2x2',
      down: null,
      note: 'late shift',
      knownBy: { down: 'told' },
    });
    expect(changed).toMatchObject({
      status: 200,
      body: { formation: expect.not.stringContaining('three'), down: null, distance: 10, note: 'late shift' },
    });
    expect(await packOf(chart)).toMatchObject({
      revision: 4,
      plays: [
        { playNumber: 1, offenseIsHome: true },
        { playNumber: 2, orderInGame: 7, offenseIsHome: false },
      ],
    });
    expect((await our.get(chart.at)).body).toMatchObject({ plays: 2, revision: 4 });
    expect((await our.delete(`${chart.at}/plays/2`)).status).toBe(204);
    expect((await our.get(`${chart.at}/plays/2`)).status).toBe(404);
    // The number of the removed play is not given again.
    expect((await our.post(`${chart.at}/plays`, A_PLAY)).body).toMatchObject({ playNumber: 3, orderInGame: 2 });
    expect((await packOf(chart)).revision).toBe(6);
  });

  it('raises the revision of the scope, so that what was computed before is computed anew', async () => {
    const profile = `/v1/players/${pairing.home.id}/profile`;
    expect((await our.get(profile)).body.snaps).toBe(0);
    await our.made(`${chart.at}/plays`, { ...A_PLAY, callFamily: 'run', snapResult: 'rushed', yardsGained: 4 });
    expect((await our.get(profile)).body.snaps).toBe(1);
  });

  it.each([
    [{ ...A_PLAY, playType: undefined }, 'playType'],
    [{ ...A_PLAY, offense: undefined }, 'offense'],
    [{ ...A_PLAY, offense: 'Mossback' }, 'offense'],
    [{ ...A_PLAY, formation: 'no such look' }, 'formation'],
    [{ ...A_PLAY, down: 5 }, 'down'],
    [{ ...A_PLAY, distance: 80 }, 'distance'],
    [{ ...A_PLAY, colour: 'red' }, 'colour'],
    [{ ...A_PLAY, playNumber: 3 }, 'playNumber'],
    [{ ...A_PLAY, knownBy: { down: 'guessed' } }, 'knownBy'],
    [{ ...A_PLAY, adjustments: [{ term: 'no such thing' }] }, 'adjustments'],
  ])('refuses %j', async (play, field) => {
    expect(await our.post(`${chart.at}/plays`, play)).toMatchObject({
      status: 400,
      body: { code: 'request.invalid', errors: expect.arrayContaining([expect.objectContaining({ field })]) },
    });
    expect((await our.get(chart.at)).body).toMatchObject({ plays: 0, revision: 1 });
  });

  it('has an order that no other play of the chart has', async () => {
    await our.made(`${chart.at}/plays`, { ...A_PLAY, orderInGame: 4 });
    const again = await our.post(`${chart.at}/plays`, { ...A_PLAY, orderInGame: 4 });
    expect(again).toMatchObject({ status: 409, body: { code: 'play.order_taken' } });
    await our.made(`${chart.at}/plays`, A_PLAY);
    expect(await our.patch(`${chart.at}/plays/2`, { orderInGame: 4 })).toMatchObject({ status: 409 });
    expect((await our.patch(`${chart.at}/plays/2`, { orderInGame: 3 })).status).toBe(200);
    const { items } = (await our.get(`${chart.at}/plays?fields=playNumber,orderInGame`)).body;
    expect(items).toEqual([
      { playNumber: 2, orderInGame: 3 },
      { playNumber: 1, orderInGame: 4 },
    ]);
  });

  it('added by many at once gets a number of its own each, and the copy has them all', async () => {
    const answers = await Promise.all(Array.from({ length: 6 }, () => our.post(`${chart.at}/plays`, A_PLAY)));
    expect(answers.map(({ body }) => Number(body.playNumber)).sort()).toEqual([1, 2, 3, 4, 5, 6]);
    expect(await packOf(chart)).toMatchObject({ revision: 7, plays: { length: 6 } });
  });

  it('of two changes made from the same state one is refused', async () => {
    const { etag, at } = await our.made(`${chart.at}/plays`, A_PLAY);
    const change = (down: number) => api.as(clan).patch(at).set('If-Match', etag).send({ down });
    const answers = await Promise.all([change(2), change(3), change(4)]);
    expect(answers.map(({ status }) => status).sort()).toEqual([200, 412, 412]);
  });

  it('is refused beyond what the clan may keep', async () => {
    for (let play = 0; play < 8; play += 1) await our.made(`${chart.at}/plays`, A_PLAY);
    expect(await our.post(`${chart.at}/plays`, A_PLAY)).toMatchObject({ status: 403 });
    expect((await our.get(chart.at)).body).toMatchObject({ plays: 8 });
  });

  it('is listed under chart, game and player, by page and by what it says', async () => {
    for (const down of [1, 2, 3]) await our.made(`${chart.at}/plays`, { ...A_PLAY, down });
    await our.made(`${chart.at}/plays`, { ...A_PLAY, offense: 'away', formation: '2x2' });
    const numbers = async (path: string): Promise<number[]> => {
      const { status, body } = await our.get(path);
      expect({ path, status }).toEqual({ path, status: 200 });
      const items: { playNumber: number }[] = body.items;
      return items.map(({ playNumber }) => playNumber);
    };
    expect(await numbers(`${chart.at}/plays`)).toEqual([1, 2, 3, 4]);
    expect(await numbers(`${chart.at}/plays?formation=trips&down=2`)).toEqual([2]);
    expect(await numbers(`${pairing.game.at}/plays?down=3`)).toEqual([3]);
    expect(await numbers(`${pairing.home.at}/plays`)).toEqual([1, 2, 3]);
    expect(await numbers(`${pairing.home.at}/plays?side=defense`)).toEqual([4]);
    const first = await our.get(`${chart.at}/plays?limit=3`);
    const next = /^<(.+)>; rel="next"$/.exec(first.headers['link'] ?? '')?.[1] ?? '';
    expect(await numbers(next)).toEqual([4]);
    for (const path of ['?down=9', '?formation=shoe', '?colour=red', '?after=1', '?limit=500', '?fields=shoe']) {
      expect(await our.get(`${chart.at}/plays${path}`)).toMatchObject({ status: 400 });
    }
    expect((await our.get('/v1/plays')).status).toBe(404);
  });

  it('keeps what was seen of adjustments, in their order', async () => {
    const terms: { name: string }[] = (await our.get('/v1/terms?kind=preSnapAdjustment&limit=2')).body.items;
    const [one, two] = terms.map(({ name }) => name);
    const adjustments = [
      { term: two, secondsLeft: 9 },
      { term: one, trigger: 'the safety walked down' },
    ];
    const { at } = await our.made(`${chart.at}/plays`, { ...A_PLAY, adjustments });
    expect((await our.get(at)).body).toMatchObject({ adjustments, preSnapAdjustments: [two, one] });
    expect((await our.patch(at, { preSnapAdjustments: [one] })).body).toMatchObject({
      adjustments: null,
      preSnapAdjustments: [one],
    });
  });

  it('of another clan is not there, whatever is asked', async () => {
    const { at, etag } = await our.made(`${chart.at}/plays`, A_PLAY);
    const other = handOf(api, await aClan(api.database.owner));
    const answers = await Promise.all([
      ...[at, chart.at, `${chart.at}/plays`, pairing.game.at, `${pairing.game.at}/plays`].map((path) =>
        other.get(path),
      ),
      ...[at, chart.at, pairing.game.at].map((path) => other.delete(path)),
      other.post(`${chart.at}/plays`, A_PLAY),
      other.get(`${pairing.home.at}/plays`),
    ]);
    expect(answers.map(({ status }) => status)).toEqual(answers.map(() => 404));
    const otherClan = await aClan(api.database.owner);
    for (const path of [at, chart.at, pairing.game.at]) {
      expect((await api.as(otherClan).patch(path).set('If-Match', etag).send({})).status).toBe(404);
    }
  });

  it('reads the same packed as in its row', async () => {
    await our.made(`${chart.at}/plays`, { ...A_PLAY, note: 'n', ledTo: [], hash: 'left', offDesign: 'no' });
    const { plays } = await packOf(chart);
    const again = playsOfColumns(columnsFromPlays({ chartId: chart.id, gameId: '' }, plays));
    expect(again).toEqual(plays);
    expect((await our.get(`${chart.at}/plays/1`)).body).toMatchObject({ ledTo: [], hash: 'left', offDesign: 'no' });
  });
});
