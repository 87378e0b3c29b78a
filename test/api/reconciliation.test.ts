import { handOf } from '../support/http.js';
import { randomUUID } from 'node:crypto';
import { unpackPlays } from '#domain/charting/packed-plays.js';
import { aClan, type TestClan } from '../support/factories.js';
import { aGameRecord, aPlayRecord, TWO_PLAYERS } from '../support/small-league.js';
import { loadRecords } from '../support/load-records.js';
import { startTestApi, type TestApi } from '../support/test-api.js';

type Cells = Readonly<Record<string, unknown>>;

let api: TestApi;
let clan: TestClan;
let gameId: string;

beforeAll(async () => {
  api = await startTestApi();
});
afterAll(() => api.close());
beforeEach(async () => {
  clan = await aClan(api.database.owner);
  gameId = randomUUID();
  await load([...TWO_PLAYERS, aGameRecord({ id: gameId })]);
});

const load = (records: readonly Cells[]): Promise<void> => loadRecords(api, clan, records);

async function chart(query: string, rows: readonly string[]): Promise<string> {
  const response = await api
    .as(clan)
    .post(`/v1/games/${gameId}/charts?${query}`)
    .set('Content-Type', 'text/csv')
    .send(rows.join('\n'));
  expect(response).toMatchObject({ status: 201 });
  const { charts } = response.body as { charts: { chartId: string }[] };
  return charts[0]?.chartId ?? '';
}

const HEADER =
  'order,offense,playType,down,distance,yardsToGoal,formation,coverage,callFamily,snapResult,yardsGained,note';

const MAIN = [
  HEADER,
  '1,Mossback,scrimmage,1,10,75,trips,,run,rushed,6,',
  '2,Mossback,scrimmage,2,4,69,2x2,,dropback pass,complete,8,seen twice',
  '3,Mossback,scrimmage,1,10,61,,,play action,incomplete,0,',
  '4,Mossback,scrimmage,2,10,61,,,run,rushed,2,',
];

async function reconciled(): Promise<Record<string, unknown>[]> {
  const { rows } = await api.database.owner.query<Record<string, unknown>>(
    `select p.play_number as number, p.order_in_game as "order", p.down, p.yards_gained as gained, p.note,
            f.name as formation, k.name as coverage, c.revision, c.id as chart
       from chart c join play p on p.clan_id = c.clan_id and p.chart_id = c.id
       left join term f on f.id = p.formation left join term k on k.id = p.coverage
      where c.clan_id = $1 and c.kind = 'reconciled' order by p.order_in_game`,
    [clan.id],
  );
  return rows;
}

describe('several charts of one game', () => {
  it('are reconciled field by field, and one needs no reconciling', async () => {
    await chart('', MAIN);
    expect(await reconciled()).toEqual([]);
    await chart('chart=coverages&fields=coverage', [
      HEADER,
      '2,Mossback,scrimmage,2,4,69,trips,cover 3,,,,',
      '4,Mossback,scrimmage,2,10,61,,cover 1,,,,',
    ]);
    expect(await reconciled()).toMatchObject([
      { order: 1, formation: 'three by one', coverage: null, gained: 6 },
      { order: 2, formation: 'two by two', coverage: 'cover 3', gained: 8, note: 'seen twice' },
      { order: 3, coverage: null },
      { order: 4, coverage: 'cover 1', gained: 2 },
    ]);
  });

  it('give one chart that counts: its packed copy holds what its rows hold', async () => {
    await chart('', MAIN);
    await chart('chart=second', [HEADER, '1,Mossback,scrimmage,1,10,75,bunch,,run,rushed,6,']);
    const { rows } = await api.database.owner.query<{ bytes: Buffer; revision: number; chart_id: string }>(
      `select k.* from chart_pack k join chart c on c.clan_id = k.clan_id and c.id = k.chart_id
        where c.clan_id = $1 and c.kind = 'reconciled'`,
      [clan.id],
    );
    const [pack] = rows;
    expect(pack).toMatchObject({ revision: 1, plays: 4 });
    const plays = unpackPlays(pack?.bytes ?? Buffer.alloc(0), { chartId: pack?.chart_id ?? '', gameId });
    expect([...plays.number('yardsGained').values]).toEqual([6, 8, 0, 2]);
    const { body } = await api.as(clan).get('/v1/players');
    const { items } = body as { items: { id: string; handle: string }[] };
    const mossback = items.find(({ handle }) => handle === 'Mossback')?.id ?? '';
    const profile = await api.as(clan).get(`/v1/players/${mossback}/profile`);
    // Five charted rows, of four snaps.
    expect(profile.body).toMatchObject({ snaps: 4, games: 1 });
  });

  it('keep the numbers of plays and raise the revision only when something counts differently', async () => {
    await chart('', [HEADER, ...MAIN.slice(1, 2), ...MAIN.slice(3)]);
    await chart('chart=second', [HEADER, MAIN[1] ?? '']);
    const before = await reconciled();
    expect(before.map(({ number, order }) => [number, order])).toEqual([
      [1, 1],
      [2, 3],
      [3, 4],
    ]);
    // The same again by a third person, who saw one more snap.
    await chart('chart=third', MAIN);
    const after = await reconciled();
    expect(after.map(({ number, order }) => [number, order])).toEqual([
      [1, 1],
      [4, 2],
      [2, 3],
      [3, 4],
    ]);
    expect(after[0]).toMatchObject({ chart: before[0]?.['chart'], revision: 2 });
    await chart('chart=fourth', [HEADER, MAIN[1] ?? '']);
    expect((await reconciled())[0]).toMatchObject({ revision: 2 });
  });

  it('come in one import too, and count once though they come in at the same time', async () => {
    const plays = (name: string, cells: Cells) => [
      { record: 'chart', game: 'pond-1', reference: name },
      aPlayRecord({ order: 1, chart: name, down: 1, distance: 10, ...cells }),
    ];
    await Promise.all([
      load(plays('one', { formation: 'trips' })),
      load(plays('two', { coverage: 'cover 3' })),
      load(plays('three', { yardsGained: 5 })),
    ]);
    expect(await reconciled()).toMatchObject([{ formation: 'three by one', coverage: 'cover 3', gained: 5 }]);
  });

  it('need no reconciling any more once only one is left', async () => {
    const main = await chart('', MAIN);
    const second = await chart('chart=second', [HEADER, '1,Mossback,scrimmage,1,10,75,bunch,,run,rushed,7,']);
    expect((await reconciled())[0]).toMatchObject({ gained: 7 });
    expect(await handOf(api, clan).delete(`/v1/charts/${second}`)).toMatchObject({ status: 204 });
    expect(await reconciled()).toEqual([]);
    expect((await api.as(clan).get(`/v1/games/${gameId}/reconciliation`)).body).toMatchObject({ chartId: main });
  });

  it('stay as they were charted', async () => {
    const first = await chart('', MAIN);
    await chart('chart=second', [HEADER, '1,Mossback,scrimmage,1,10,75,bunch,,run,rushed,7,']);
    const { rows } = await api.database.owner.query(
      'select yards_gained from play where clan_id = $1 and chart_id = $2 order by play_number',
      [clan.id, first],
    );
    expect(rows.map(({ yards_gained: gained }: { yards_gained: number }) => gained)).toEqual([6, 8, 0, 2]);
    expect((await reconciled())[0]).toMatchObject({ gained: 7, formation: 'bunch' });
  });
});

describe('what counts of a game', () => {
  const whatCounts = () => api.as(clan).get(`/v1/games/${gameId}/reconciliation`);

  it('says which chart each value comes from, and where the charts differ', async () => {
    const main = await chart('', MAIN);
    const coverages = await chart('chart=coverages&fields=coverage,formation', [
      HEADER,
      '2,Mossback,scrimmage,2,4,69,bunch,cover 3,,,,',
    ]);
    const { status, body } = await whatCounts();
    expect({ status, body }).toMatchObject({
      status: 200,
      body: {
        gameId,
        charts: [
          { chartId: main, reference: 'main', plays: 4 },
          { chartId: coverages, reference: 'coverages', plays: 1, values: 2 },
        ],
        disputed: 1,
        contradictions: [],
      },
    });
    expect(body.plays[1]).toMatchObject({
      playNumber: 2,
      order: 2,
      sources: [
        { chartId: main, playNumber: 2, fields: expect.arrayContaining(['down', 'yardsGained']) },
        { chartId: coverages, playNumber: 1, fields: ['formation', 'coverage'] },
      ],
      disputed: ['formation'],
    });
    expect(body.chartId).toBe((await reconciled())[0]?.['chart']);
  });

  it('is the one chart where there is one, and nothing where there is none', async () => {
    expect((await whatCounts()).body).toMatchObject({ chartId: null, charts: [], plays: [] });
    const main = await chart('', MAIN);
    expect((await whatCounts()).body).toMatchObject({ chartId: main, disputed: 0, charts: [{ chartId: main }] });
  });

  it('lists what contradicts itself once it is put together', async () => {
    await chart('', MAIN);
    await chart('chart=spots&fields=yardsToGoal', [HEADER, '3,Mossback,scrimmage,1,,5,,,,,,']);
    expect((await whatCounts()).body.contradictions).toEqual([
      { playNumber: 3, field: 'distance', found: '10', expected: 'at most the 5 yards to the goal line' },
    ]);
  });
});

describe('the agreement of two charts', () => {
  it('is told field by field, with the plays that differ', async () => {
    const first = await chart('', MAIN);
    const second = await chart('chart=second', [
      HEADER,
      '1,Mossback,scrimmage,1,10,75,trips,,run,rushed,6,',
      '2,Mossback,scrimmage,2,4,69,bunch,,dropback pass,complete,8,',
      '3,Mossback,scrimmage,1,10,61,,,dropback pass,incomplete,0,',
    ]);
    const { status, body } = await api.as(clan).get(`/v1/games/${gameId}/agreement?first=${first}&second=${second}`);
    expect({ status, body }).toMatchObject({
      status: 200,
      body: { gameId, first, second, confidence: 0.9, plays: 3, onlyInFirst: [4], onlyInSecond: [] },
    });
    const { fields } = body as { fields: { field: string }[] };
    const field = (name: string) => fields.find((entry) => entry.field === name);
    expect(field('formation')).toMatchObject({ plays: 2, same: 1, kappa: expect.any(Number), noKappa: null });
    expect(field('callFamily')).toMatchObject({ plays: 3, same: 2, interval: { upper: expect.any(Number) } });
    expect(field('offense')).toMatchObject({ same: 3, kappa: null, noKappa: 'one value' });
    expect(body.differing).toEqual([
      {
        order: 2,
        firstPlayNumber: 2,
        secondPlayNumber: 2,
        fields: [{ field: 'formation', first: 'two by two', second: 'bunch' }],
      },
      {
        order: 3,
        firstPlayNumber: 3,
        secondPlayNumber: 3,
        fields: [{ field: 'callFamily', first: 'play action', second: 'dropback pass' }],
      },
    ]);
  });

  it('is refused for a chart that the game has not, and for a game of another clan', async () => {
    const first = await chart('', MAIN);
    const ask = (by: TestClan, second: string) =>
      api.as(by).get(`/v1/games/${gameId}/agreement?first=${first}&second=${second}`);
    expect(await ask(clan, randomUUID())).toMatchObject({ status: 404, body: { code: 'resource.not_found' } });
    expect(await ask(clan, 'main')).toMatchObject({ status: 400, body: { errors: [{ field: 'second' }] } });
    const other = await aClan(api.database.owner);
    expect(await ask(other, first)).toMatchObject({ status: 404, body: { code: 'resource.not_found' } });
    expect(await api.as(other).get(`/v1/games/${gameId}/reconciliation`)).toMatchObject({ status: 404 });
  });
});
