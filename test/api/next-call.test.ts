import { CallFitting } from '#api/features/next-call/call-fitting.js';
import type { LikelyCallResponse } from '#api/features/next-call/next-call.dto.js';
import type { FittedCalls } from '#domain/forecast/live/fit-calls.js';
import { aClan, type TestClan } from '../support/factories.js';
import { gamesOf, snaps } from '../support/invented-games.js';
import { TWO_PLAYERS } from '../support/small-league.js';
import { loadRecords, playerCalled } from '../support/load-records.js';
import { startTestApi, type TestApi } from '../support/test-api.js';

const THIRD_AND_SEVEN = { down: 3, distance: 7, quarter: 2, drive: 4, yardsToGoal: 55 };
const SCREEN = { ...THIRD_AND_SEVEN, callFamily: 'screen', motion: 'short out', snapResult: 'complete' };
const DROPBACK = { ...THIRD_AND_SEVEN, callFamily: 'dropback pass', motion: 'short out', snapResult: 'incomplete' };
const RUN = { callFamily: 'run', motion: 'none', snapResult: 'rushed' };

/** A thread compiles what it runs, which a busy machine takes its time for. */
jest.setTimeout(60_000);

let api: TestApi;
let clan: TestClan;

beforeAll(async () => {
  api = await startTestApi();
});
afterAll(() => api.close());
beforeEach(async () => {
  clan = await aClan(api.database.owner);
});

/** Seven third downs with motion, five of them screens, among runs on second down; three games. */
async function load(third = [SCREEN, SCREEN, DROPBACK, SCREEN, DROPBACK, SCREEN, SCREEN]): Promise<void> {
  const games = [0, 1, 2].map((game) => [
    ...snaps(12, () => RUN),
    ...third.filter((_, place) => place % 3 === game).map((snap) => ({ ...snap })),
  ]);
  await loadRecords(api, clan, [...TWO_PLAYERS, ...gamesOf(games)]);
}

const playerOf = (of: TestClan, name = 'Mossback'): Promise<string> => playerCalled(api, of, name);

async function ask(body: object, accept = 'application/json') {
  const id = await playerOf(clan);
  return api.as(clan).post(`/v1/players/${id}/next-call`).set('Accept', accept).send(body);
}

const SNAP = { down: 3, distance: 7, yardsToGoal: 48, motion: 'short out' };

describe('third and seven, they motion a back out: what is coming', () => {
  it('is answered with the top three, raw counts, the level they rest on, the games and the clips', async () => {
    await load();
    const { status, body } = await ask({ snap: SNAP });
    expect(status).toBe(200);
    expect(body).toMatchObject({ target: 'call-family', side: 'offense', known: 7, games: 3, warning: null });
    expect(body.restsOn).toBe('Mossback on 3rd and 7-10, motion short out');
    expect(body.words).toMatch(/screen \d+ % \(5 of 7\), dropback pass \d+ % \(2 of 7\), run \d+ % \(0 of 7\)/);
    expect(body.calls).toHaveLength(3);
    const [screen] = body.calls;
    expect(screen.probability).toBeGreaterThan(screen.fieldShare);
    expect(screen.reasons[0]).toMatchObject({ of: 'field', words: 'field, all calls: 5 of 43 (12 %)' });
    expect(screen.reasons).toContainEqual(expect.objectContaining({ of: 'player', count: 5, known: 7, games: 3 }));
    expect(body.plays).toHaveLength(7);
    expect(body.plays[0]).toMatchObject({ second: expect.any(Number), gameId: expect.any(String) });
    const all = (await ask({ snap: SNAP, top: 10 })).body.calls as { probability: number }[];
    expect(all.reduce((sum, { probability }) => sum + probability, 0)).toBeCloseTo(1, 9);
  });

  it('says at two plays not to rest a call on it', async () => {
    await load([SCREEN, DROPBACK]);
    const { body } = await ask({ snap: SNAP });
    expect(body).toMatchObject({ known: 2, warning: '2 plays: do not rest a call on it' });
  });

  it('falls back on the field where nothing is known, and says so', async () => {
    await load();
    const other = await playerOf(clan, 'Brass Heron');
    const { body } = await api.as(clan).post(`/v1/players/${other}/next-call`).send({ snap: SNAP });
    expect(body.restsOn).toBe('field on 3rd and 7-10, motion short out');
    expect(body.warning).toBe('nothing charted of Brass Heron here: this is what the field does');
    expect(body.plays).toEqual([]);
  });

  it('moves with the game in progress', async () => {
    await load();
    const before = (await ask({ snap: SNAP })).body;
    const runs = Array.from({ length: 6 }, () => ({ down: 3, distance: 8, callFamily: 'run' }));
    const after = (await ask({ snap: SNAP, gameSoFar: runs })).body;
    const shareOfRun = (body: { calls: { call: string; probability: number }[] }): number =>
      body.calls.find(({ call }) => call === 'run')?.probability ?? 0;
    expect(shareOfRun(after)).toBeGreaterThan(shareOfRun(before));
    expect(after.calls[0].reasons).toContainEqual(expect.objectContaining({ of: 'today', known: 6 }));
  });

  it('is one line as plain text, with the caution', async () => {
    await load();
    const { text } = await ask({ snap: SNAP }, 'text/plain');
    expect(text.trim().split('\n')).toHaveLength(1);
    expect(text).toContain('(5 of 7)');
    expect(text).toContain("The event's own rules decide whether aids may be used during play.");
  });
});

describe('an archive rich enough for a model', () => {
  const PLAYS = 150;
  const rich = (): Promise<void> =>
    load(Array.from({ length: 3 * PLAYS }, (_, place) => (place % 4 === 0 ? DROPBACK : SCREEN)));
  const counted = ({ reasons }: LikelyCallResponse): unknown[] =>
    reasons.map(({ of, count, known, games, words }) => ({ of, count, known, games, words }));

  afterEach(() => jest.restoreAllMocks());

  it('is answered by counting at once, by the model once a thread of its own has fitted it, and says which', async () => {
    await rich();
    const fit = jest.spyOn(api.app.get(CallFitting), 'fit');
    const first = (await ask({ snap: SNAP, top: 10 })).body;
    expect(first.answeredBy).toBe('counts');
    await fit.mock.results[0]?.value;
    const { body } = await ask({ snap: SNAP, top: 10 });
    expect(fit).toHaveBeenCalledTimes(1);
    expect(body).toMatchObject({ answeredBy: 'model', restsOn: first.restsOn, known: first.known });
    const [screen, before] = [body, first].map(({ calls }) => (calls as LikelyCallResponse[])[0]);
    expect(screen).toMatchObject({ call: 'screen' });
    // The counted steps are told as before; the model's step is the last of them, and what is answered.
    expect(screen && counted(screen).slice(0, -1)).toEqual(before && counted(before));
    const last = screen?.reasons.at(-1);
    expect(last).toMatchObject({ of: 'together', known: 486, games: 3, probability: screen?.probability });
    expect(last?.words).toMatch(/^all that is known weighed at once, as 486 calls taught: \d+ %$/);
    const all = body.calls as LikelyCallResponse[];
    expect(all.reduce((sum, { probability }) => sum + probability, 0)).toBeCloseTo(1, 9);

    const runs = Array.from({ length: 6 }, () => ({ down: 3, distance: 8, motion: 'short out', callFamily: 'run' }));
    const later = (await ask({ snap: SNAP, gameSoFar: runs, top: 10 })).body;
    const moved = later.calls as LikelyCallResponse[];
    const run = (calls: LikelyCallResponse[]): number => calls.find(({ call }) => call === 'run')?.probability ?? 0;
    expect(run(moved)).toBeGreaterThan(run(all));
    expect(moved[0]?.reasons.at(-1)).toMatchObject({
      of: 'today',
      known: 6,
      words: 'this game, all calls: 0 of 6',
    });
  });

  it('goes on being answered while a fit is under way', async () => {
    await rich();
    let finish: (fitted: FittedCalls | null) => void = () => undefined;
    const unfinished = new Promise<FittedCalls | null>((resolve) => {
      finish = resolve;
    });
    const fit = jest.spyOn(api.app.get(CallFitting), 'fit').mockReturnValue(unfinished);
    for (let asked = 0; asked < 3; asked += 1) expect((await ask({ snap: SNAP })).body.answeredBy).toBe('counts');
    expect(fit).toHaveBeenCalledTimes(1);
    finish(null);
    await unfinished;
    expect((await ask({ snap: SNAP })).body.answeredBy).toBe('counts');
  });

  it('is answered by counting where the fit failed', async () => {
    await rich();
    const fit = jest.spyOn(api.app.get(CallFitting), 'fit').mockRejectedValue(new Error('out of memory'));
    await ask({ snap: SNAP });
    await expect(fit.mock.results[0]?.value).rejects.toThrow('out of memory');
    expect(await ask({ snap: SNAP })).toMatchObject({ status: 200, body: { answeredBy: 'counts' } });
  });
});

it.each([
  [{ snap: { ...SNAP, callFamily: 'run' } }, 'snap.callFamily', 'a field that is known before the call-family'],
  [{ snap: { ...SNAP, yardsGained: 4 } }, 'snap.yardsGained', 'a field that is known before the call-family'],
  [{ snap: { ...SNAP, motion: 'cartwheel' } }, 'snap.motion', expect.stringContaining('a term of kind motion')],
  [{ snap: SNAP, gameSoFar: [{ colour: 'red' }] }, 'gameSoFar.0.colour', 'a field of a play'],
])('refuses %j', async (body, field, expected) => {
  await load();
  const response = await ask(body);
  expect(response.status).toBe(400);
  expect(response.body.errors).toMatchObject([{ field, expected }]);
});

it('has nothing to say of a target that nobody charted', async () => {
  await load();
  expect((await ask({ snap: SNAP, target: 'coverage' })).body).toMatchObject({
    status: 422,
    code: 'forecast.too_little',
  });
});

it('answers each clan from what it may see alone', async () => {
  await load();
  const ours = clan;
  await ask({ snap: SNAP });
  clan = await aClan(api.database.owner);
  await load([DROPBACK, DROPBACK, DROPBACK]);
  expect((await ask({ snap: SNAP })).body.calls[0]).toMatchObject({ call: 'dropback pass' });
  const id = await playerOf(ours);
  expect((await api.as(clan).post(`/v1/players/${id}/next-call`).send({ snap: SNAP })).status).toBe(404);
  clan = ours;
  expect((await ask({ snap: SNAP })).body.calls[0]).toMatchObject({ call: 'screen' });
});
