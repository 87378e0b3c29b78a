import { ThreadQueue } from '#api/common/thread-queue.js';
import { aClan, type TestClan } from '../support/factories.js';
import { gamesOf, snaps } from '../support/invented-games.js';
import { TWO_PLAYERS } from '../support/small-league.js';
import { loadRecords, playerCalled } from '../support/load-records.js';
import { startTestApi, type TestApi } from '../support/test-api.js';

interface Score {
  readonly dimension: string;
  readonly by: string;
  readonly report: { readonly logLoss: number; readonly brier: number };
  readonly baseline: { readonly logLoss: number };
  readonly logLossDifference: { readonly mean: number };
}

interface Table {
  readonly dimension: string;
  readonly classes: readonly { readonly valueKey: string }[];
  readonly rows: readonly {
    readonly situation: string;
    readonly shares: readonly number[];
    readonly fieldShares: readonly number[];
  }[];
}

const RUN = { called: 'run', callFamily: 'run', coverage: 'cover 3' };
const PASS = { called: 'pass', callFamily: 'dropback pass', snapResult: 'incomplete', yardsGained: 0 };
const BEFORE = [0, 1, 2].map((game) => snaps(20, (place) => ((place + game) % 4 === 0 ? PASS : RUN)));
const MATCH = snaps(12, (place) => (place < 3 ? PASS : { ...RUN, drive: place < 8 ? 1 : 2 }));
const AS_OF = '2026-03-04';

/** A thread compiles what it runs, which a busy machine takes its time for. */
jest.setTimeout(60_000);

let api: TestApi;
let clan: TestClan;
let reportId: string;

beforeAll(async () => {
  api = await startTestApi();
});
afterAll(() => api.close());
beforeEach(async () => {
  clan = await aClan(api.database.owner);
  await charted(BEFORE);
  const [event, own, opponent] = [
    await idOf('events', 'Pond Cup'),
    await playerOf('Brass Heron'),
    await playerOf('Mossback'),
  ];
  const { status, body } = await api
    .as(clan)
    .post('/v1/round-reports')
    .send({ eventId: event, playerId: own, opponentId: opponent, asOf: AS_OF });
  expect(status).toBe(201);
  reportId = (body as { id: string }).id;
});

async function charted(games: readonly (readonly object[])[]): Promise<void> {
  const cells = gamesOf(games as Parameters<typeof gamesOf>[0]);
  await loadRecords(api, clan, [...TWO_PLAYERS, ...cells]);
}

async function idOf(what: string, name: string): Promise<string> {
  const { items } = (await api.as(clan).get(`/v1/${what}`)).body as { items: { id: string; name: string }[] };
  return items.find((item) => item.name === name)?.id ?? '';
}

const playerOf = (name: string): Promise<string> => playerCalled(api, clan, name);

const card = (accept = 'application/json', query = '') =>
  api.as(clan).get(`/v1/round-reports/${reportId}/report-card${query}`).set('Accept', accept);
const reportText = async (): Promise<string> => (await api.as(clan).get(`/v1/round-reports/${reportId}`)).text;

describe('before the match is charted', () => {
  it('is an honest empty card that says what is awaited', async () => {
    const { status, body } = await card();
    expect(status).toBe(200);
    expect(body).toMatchObject({ games: [], scores: [], tells: [], answers: [], planned: null, opponent: 'Mossback' });
    expect(body.awaited).toMatch(/^no charted game yet/);
    expect(body.calibration).toMatchObject({ reports: 0, plays: 0, calibration: null });
  });

  it('does not count what was in its evidence, nor a game of another day', async () => {
    const games = (await api.as(clan).get('/v1/games')).body as { items: { id: string }[] };
    const { body } = await card('application/json', `?gameId=${games.items[0]?.id ?? ''}`);
    expect(body.games).toEqual([]);
  });
});

describe('once the match is charted', () => {
  it('scores what was frozen: the mean of minus the logarithm, and the squares', async () => {
    const frozen = JSON.parse(await reportText()) as { predicted: Table[] };
    await charted([...BEFORE, MATCH]);
    const { status, body } = await card();
    expect(status).toBe(200);
    expect(body).toMatchObject({ awaited: null, snaps: { offense: 12, defense: 0 } });
    expect(body.verdict).toMatch(/^One match cannot confirm or refute/);
    const table = frozen.predicted.find(({ dimension }) => dimension === 'called');
    const row = table?.rows.find(({ situation }) => situation === '2nd and 7-10');
    const passClass = table?.classes.findIndex(({ valueKey }) => valueKey === 'pass') ?? -1;
    const [pass, field] = [row?.shares[passClass] ?? 0, row?.fieldShares[passClass] ?? 0];
    // Three passes and nine runs, all second and eight.
    const logLoss = (of: number): number => -(3 * Math.log(of) + 9 * Math.log(1 - of)) / 12;
    const brier = (of: number): number => (3 * (1 - of) ** 2 + 9 * of ** 2) / 12;
    const scores = body.scores as Score[];
    const score = scores.find(({ dimension }) => dimension === 'called');
    expect(score?.report.logLoss).toBeCloseTo(logLoss(pass), 5);
    expect(score?.report.brier).toBeCloseTo(brier(pass), 5);
    expect(score?.baseline.logLoss).toBeCloseTo(logLoss(field), 5);
    expect(score?.logLossDifference).toMatchObject({ drawn: 'drives', clusters: 2 });
    expect(score?.logLossDifference.mean).toBeCloseTo(logLoss(pass) - logLoss(field), 5);
    expect(body.calibration).toMatchObject({ reports: 1, byForecast: 0, games: 1, plays: 12 });
    // Sixty calls are too few for a forecast.
    expect(scores.map(({ by }) => by)).not.toContain('forecast');
    expect(body.judged).toMatch(/^Of run or pass called, call family.* fewer than 400 calls were known/);
  });

  it('never changes what was foretold, however much is charted later', async () => {
    const stored = async (): Promise<string> => {
      const { rows } = await api.database.owner.query<{ body: string }>(
        'select body::text as body from round_report where id = $1',
        [reportId],
      );
      return rows[0]?.body ?? '';
    };
    const [text, body] = [await reportText(), await stored()];
    const later = snaps(30, () => PASS);
    await charted([...BEFORE, MATCH, later, later]);
    await card();
    expect(await reportText()).toBe(text);
    expect(await stored()).toBe(body);
    const { body: judged } = await card();
    expect(judged.games).toHaveLength(3);
    expect(judged.scores[0].logLossDifference).toMatchObject({ drawn: 'games', clusters: 3 });
    expect((await card()).text).toBe((await card()).text);
  });

  it('does not read later games when a report is made as of an earlier day', async () => {
    const early = JSON.parse(await reportText()) as { predicted: unknown; sample: unknown };
    await charted([...BEFORE, MATCH]);
    const wanted = { eventId: await idOf('events', 'Pond Cup'), opponentId: await playerOf('Mossback'), asOf: AS_OF };
    const { body } = await api.as(clan).post('/v1/round-reports').send(wanted);
    expect(body).toMatchObject({ predicted: early.predicted, sample: early.sample, asOf: AS_OF });
  });

  it('holds the own call log against the chart', async () => {
    await charted([...BEFORE, MATCH]);
    const [{ gameId }] = (await card()).body.games as [{ gameId: string }];
    for (const [orderInGame, coverage] of [
      [4, 'cover 3'],
      [5, 'cover 1'],
      [1, 'cover 3'],
    ] as const) {
      const meant = { gameId, orderInGame, side: 'defense', coverage };
      expect(await api.as(clan).post('/v1/own-calls').send(meant)).toMatchObject({ status: 201 });
    }
    const { body } = await card();
    // The coverage of the first snap, a pass, was not charted.
    expect(body.planned).toMatchObject({
      snaps: 3,
      sides: [{ side: 'defense', asMeant: { plays: 1 }, otherwise: { plays: 1 }, notSeen: 1 }],
    });
  });

  it.each(['text/markdown', 'text/plain', 'text/html'])('reads as %s', async (type) => {
    await charted([...BEFORE, MATCH]);
    const { status, text, headers } = await card(type);
    expect(status).toBe(200);
    expect(headers['content-type']).toContain(type);
    expect(text).toContain('cannot confirm or refute');
    expect(text).toMatch(/run or pass called[^0-9]*printed shares[^0-9]*0\\?\.\d{3}/);
    if (type === 'text/html') expect(text.match(/<svg/g)).toHaveLength(2);
  });
});

describe('a report from an archive rich enough for a forecast', () => {
  const MOTION = { motion: 'jet' };
  /** Jet motion comes before three passes in four, and before one run in four. */
  const more = [0, 1, 2].map((game) =>
    snaps(160, (place) => {
      const isPass = (place + game) % 3 === 0;
      const isJet = isPass ? place % 4 !== 0 : place % 4 === 0;
      return { ...(isPass ? PASS : RUN), ...(isJet ? MOTION : { motion: 'none' }) };
    }),
  );
  const rich = [...BEFORE, ...more];
  const afterThem = '2026-03-07';
  const match = snaps(12, (place) => (place < 4 ? { ...PASS, ...MOTION } : { ...RUN, motion: 'none' }));

  interface Frozen {
    readonly id: string;
    readonly forecast?: readonly { readonly dimension: string; readonly learnedFrom: object }[];
  }

  async function made(asOf?: string): Promise<Frozen> {
    const wanted = { eventId: await idOf('events', 'Pond Cup'), opponentId: await playerOf('Mossback') };
    const { status, body } = await api
      .as(clan)
      .post('/v1/round-reports')
      .send({ ...wanted, ...(asOf === undefined ? {} : { asOf }) });
    expect(status).toBe(201);
    reportId = (body as Frozen).id;
    return body as Frozen;
  }

  beforeEach(() => charted(rich));

  it('is judged by the forecast beside its printed shares, and was told more by what showed', async () => {
    const { forecast } = await made(afterThem);
    expect(forecast?.map(({ dimension }) => dimension)).toEqual(['called', 'callFamily']);
    expect(forecast?.[0]?.learnedFrom).toEqual({ calls: 540, games: 6, ofPlayer: 540 });
    await charted([...rich, match]);
    const { body } = await card();
    const scores = body.scores as Score[];
    const [byForecast, byShares] = scores.filter(({ dimension }) => dimension === 'called');
    expect([byForecast?.by, byShares?.by]).toEqual(['forecast', 'shares']);
    expect(byForecast?.report.logLoss).toBeLessThan((byShares?.report.logLoss ?? 0) - 0.1);
    expect(body.judged).toContain('learned from 540 calls of 6 games');
    expect(body.calibration).toMatchObject({ reports: 2, byForecast: 1 });
    for (const type of ['text/markdown', 'text/plain', 'text/html']) {
      expect((await card(type)).text.replace(/<[^>]*>/g, ' ')).toMatch(/called[\s|]+forecast[\s|]+0\\?\.\d{3}[\s|]/);
    }
  });

  it('freezes the same whether or not the next call was asked for, and whatever was charted since', async () => {
    const first = await made(afterThem);
    const asItStands = await made();
    const opponent = await playerOf('Mossback');
    for (const target of ['run-pass', 'call-family']) {
      const asked = { snap: { down: 2, distance: 8 }, target };
      expect(await api.as(clan).post(`/v1/players/${opponent}/next-call`).send(asked)).toMatchObject({ status: 200 });
    }
    expect((await made()).forecast).toEqual(asItStands.forecast);
    await charted([...rich, match, snaps(200, () => PASS)]);
    expect((await made(afterThem)).forecast).toEqual(first.forecast);
    expect((await made()).forecast).not.toEqual(first.forecast);
    expect((await api.as(clan).get(`/v1/round-reports/${first.id}`)).body.forecast).toEqual(first.forecast);
  });

  it('is made without its forecast where that fails, and its card says so', async () => {
    const run = jest.spyOn(ThreadQueue.prototype, 'run').mockRejectedValue(new Error('out of memory'));
    expect((await made(afterThem)).forecast).toBeUndefined();
    run.mockRestore();
    await charted([...rich, match]);
    expect((await card()).body.judged).toBe(
      'The report keeps no forecast, so the shares that it printed are judged alone.',
    );
  });
});

describe('a report from before reports kept their probabilities', () => {
  it('is judged by what it has, and says so', async () => {
    const older = `update round_report set body = body - 'predicted' - 'forecast' where id = $1`;
    await api.database.owner.query(older, [reportId]);
    await charted([...BEFORE, MATCH]);
    expect((await card()).body).toMatchObject({ awaited: null, scores: [], calibration: { reports: 0 } });
    expect((await card('text/plain')).text).toContain('made before reports kept their probabilities');
  });
});

describe('an earlier day', () => {
  it('asks for the opponent by name, since the bracket says who is next now', async () => {
    const wanted = { eventId: await idOf('events', 'Pond Cup'), playerId: await playerOf('Brass Heron'), asOf: AS_OF };
    const { status, body } = await api.as(clan).post('/v1/round-reports').send(wanted);
    expect({ status, code: body.code }).toEqual({ status: 422, code: 'report.nothing_to_scout' });
  });
});
