import { randomUUID } from 'node:crypto';
import { aClan, type TestClan } from '../support/factories.js';
import { gamesOf, snaps } from '../support/invented-games.js';
import { TWO_PLAYERS } from '../support/small-league.js';
import { loadRecords, playerCalled } from '../support/load-records.js';
import { startTestApi, type TestApi } from '../support/test-api.js';

type Cells = Readonly<Record<string, unknown>>;

let api: TestApi;
let clan: TestClan;

beforeAll(async () => {
  api = await startTestApi();
});
afterAll(() => api.close());
beforeEach(async () => {
  clan = await aClan(api.database.owner);
});

const load = (by: TestClan, records: readonly Cells[]): Promise<void> => loadRecords(api, by, records);

const mossback = (by: TestClan = clan): Promise<string> => playerCalled(api, by, 'Mossback');

const read = async (question: string, query = '', id?: string) =>
  api.as(clan).get(`/v1/players/${id ?? (await mossback())}/${question}${query}`);

interface Operation {
  readonly parameters: readonly { readonly name: string }[];
  readonly responses: Readonly<
    Record<string, { readonly content?: { readonly 'application/json': { readonly example: unknown } } }>
  >;
}

interface Documents {
  readonly paths: Readonly<Record<string, { readonly get: Operation }>>;
}

const NONE: Operation = { parameters: [], responses: {} };

const QUESTIONS = [
  'tells',
  'sequences',
  'adjustments',
  'point-of-attack',
  'drift',
  'decisions',
  'disguise',
  'manual-defender',
];

describe.each(QUESTIONS)('an answer about %s', (question) => {
  it('of a player who was never charted is empty and says so', async () => {
    await load(clan, TWO_PLAYERS);
    const { status, body } = await read(question);
    expect(status).toBe(200);
    expect(body).toMatchObject({
      handle: 'Mossback',
      newestGame: null,
      restsOn: expect.stringContaining('nothing is known'),
    });
  });

  it('leaves the plays behind its figures out where asked to, and nothing else', async () => {
    await load(clan, [...TWO_PLAYERS, ...gamesOf([snaps(6, () => ({ callFamily: 'run' })), snaps(6, () => ({}))])]);
    const id = await mossback();
    const whole = await read(question, '', id);
    const lean = await read(question, '?evidence=none', id);
    const emptied: unknown = JSON.parse(
      JSON.stringify(whole.body, (name, value: unknown) => (name === 'plays' && Array.isArray(value) ? [] : value)),
    );
    expect(lean.body).toEqual(emptied);
    expect(lean.headers['etag']).not.toBe(whole.headers['etag']);
  });

  it('is not sent again to a client that has it, and is when anything changed', async () => {
    await load(clan, [...TWO_PLAYERS, ...gamesOf([snaps(6, () => ({ callFamily: 'run' }))])]);
    const id = await mossback();
    const first = await read(question, '', id);
    const etag = first.headers['etag'] ?? '';
    const again = await api.as(clan).get(`/v1/players/${id}/${question}`).set('If-None-Match', etag);
    expect({ status: again.status, text: again.text }).toEqual({ status: 304, text: '' });
    expect((await read(question, '?confidence=0.8', id)).headers['etag']).not.toBe(etag);
    const [, ...second] = gamesOf([[], snaps(2, () => ({ callFamily: 'run' }))]);
    await load(clan, second);
    const changed = await api.as(clan).get(`/v1/players/${id}/${question}`).set('If-None-Match', etag);
    expect(changed).toMatchObject({ status: 200, body: { newestGame: '2026-03-02' } });
  });

  it('of a player of another clan, or of nobody, is not found', async () => {
    await load(clan, TWO_PLAYERS);
    const id = await mossback();
    const other = await aClan(api.database.owner);
    for (const [by, player] of [
      [other, id],
      [clan, randomUUID()],
    ] as const) {
      expect(await api.as(by).get(`/v1/players/${player}/${question}`)).toMatchObject({
        status: 404,
        body: { code: 'resource.not_found' },
      });
    }
  });

  it.each(['colour=red', 'confidence=2', 'side=middle', 'eventId=pond-cup', 'from=yesterday', 'halfLifeDays=30'])(
    'refuses ?%s',
    async (query) => {
      const [field] = query.split('=');
      expect(await read(question, `?${query}`, randomUUID())).toMatchObject({
        status: 400,
        body: { code: 'request.invalid', errors: expect.arrayContaining([expect.objectContaining({ field })]) },
      });
    },
  );

  it('stands in the documents with its parameters and an example', async () => {
    const { body } = await api.anonymous.get('/openapi.json');
    const { parameters, responses } = (body as Documents).paths[`/v1/players/{playerId}/${question}`]?.get ?? NONE;
    expect(parameters.map(({ name }) => name)).toEqual(
      expect.arrayContaining([
        'side',
        'confidence',
        'eventId',
        'opponentId',
        'from',
        'to',
        'rulesVersion',
        'importance',
      ]),
    );
    expect(responses['200']?.content?.['application/json'].example).toMatchObject({ handle: 'Mossback' });
  });
});

/** Motion on every fourth snap, and then nearly always a run; without it a run every third time. */
const motionTells = (game: number) =>
  snaps(24, (place) => {
    const shown = place % 4 === 0;
    const isRun = shown ? place !== 8 || game % 2 === 0 : place % 3 === 1;
    return {
      motion: shown ? 'jet' : 'none',
      callFamily: isRun ? 'run' : 'dropback pass',
      snapResult: isRun ? 'rushed' : 'complete',
    };
  });

describe('tells', () => {
  it('finds a planted one, with its counts and the plays that show it', async () => {
    const games = [0, 1, 2, 3, 4, 5];
    await load(clan, [...TWO_PLAYERS, ...gamesOf(games.map(motionTells))]);
    const { body } = await read('tells');
    const [tell] = body.tells;
    expect(body).toMatchObject({ side: 'offense', level: 0.1, tested: { plays: 144, games: 6, withoutSituation: 0 } });
    expect(body.known).toContainEqual({ cue: 'motion', known: 144 });
    expect(tell).toMatchObject({
      cue: { names: ['motion'], value: 'jet', stage: 'line' },
      call: { label: 'run' },
      direction: 'more',
      count: 33,
      plays: 36,
      countWithout: 36,
      playsWithout: 108,
      of: 144,
      gamesSeen: 6,
      oneGameOnly: false,
      words: expect.stringMatching(/^motion jet: run 33 of 36 with it, 36 of 108 without; seen in 6 games; /),
    });
    const byOrder = (plays: Cells[]) => plays.map(({ playNumber }) => playNumber);
    expect(tell.evidence).toHaveLength(33);
    expect(new Set(byOrder(tell.evidence))).toEqual(new Set([1, 5, 9, 13, 17, 21]));
    // In every second game the third motion was followed by a pass.
    expect(byOrder(tell.exceptions)).toEqual([9, 9, 9]);
    expect(tell.exceptions[0]).toEqual({
      chartId: expect.any(String),
      gameId: expect.any(String),
      playNumber: 9,
      second: 250,
    });
  });

  it('says to the player what an opponent would learn', async () => {
    await load(clan, [...TWO_PLAYERS, ...gamesOf([0, 1, 2, 3, 4, 5].map(motionTells))]);
    const { body } = await read('tells', '?voice=self');
    expect(body.tells[0].words).toMatch(
      /^an opponent would learn that you call run on 33 of 36 snaps with motion jet, on 36 of 108 without; /,
    );
  });

  it('draws on the games and plays that are asked for', async () => {
    const later = (game: number) => (game < 3 ? {} : { rulesVersion: '2', importance: 'elimination' });
    await load(clan, [...TWO_PLAYERS, ...gamesOf([0, 1, 2, 3].map(motionTells), later)]);
    const plays = async (query: string) => (await read('tells', query)).body.tested.plays as number;
    expect(await plays('?rulesVersion=2')).toBe(24);
    expect(await plays('?importance=group')).toBe(72);
    expect(await plays('?from=2026-03-03')).toBe(48);
    expect(await plays('?to=2026-03-01')).toBe(24);
    expect(await plays('?cue=motion:jet')).toBe(24);
    expect(await plays('?side=defense')).toBe(0);
  });

  it('gives leads that never pass for proven', async () => {
    const oneGame = snaps(40, (place) => ({
      motion: place % 4 === 0 ? 'jet' : 'none',
      callFamily: place % 8 === 0 || place % 3 === 1 ? 'run' : 'dropback pass',
    }));
    await load(clan, [...TWO_PLAYERS, ...gamesOf([oneGame])]);
    const { body } = await read('tells', '?leads=1');
    expect(body.tells).toEqual([]);
    expect(body.leads).toHaveLength(1);
    expect(body.leads[0]).toMatchObject({ status: 'unproven', rank: 1, oneGameOnly: true, interval: null });
    expect(body.leads[0].words).toMatch(/seen in one game only.*not proven, about \d+ more snaps? would settle it$/);
    expect(body.restsOn).toContain('one game only');
  });

  it.each(['level=0', 'level=x', 'leads=21', 'voice=loud'])('refuses ?%s', async (query) => {
    expect(await read('tells', `?${query}`, randomUUID())).toMatchObject({
      status: 400,
      body: { errors: expect.arrayContaining([expect.objectContaining({ field: query.split('=')[0] })]) },
    });
  });
});

describe('figures as a sheet', () => {
  const asSheet = async (question: string, type = 'text/csv') =>
    api
      .as(clan)
      .get(`/v1/players/${await mossback()}/${question}`)
      .set('Accept', type);
  const games = () =>
    gamesOf([snaps(12, (place) => ({ motion: place % 2 === 0 ? 'jet' : 'none', callFamily: 'run' }))]);

  it('have the shares of the profile a line each, under a tag of their own', async () => {
    await load(clan, [...TWO_PLAYERS, ...games()]);
    const sheet = await asSheet('profile');
    expect(sheet).toMatchObject({ status: 200, headers: { 'content-type': 'text/csv; charset=utf-8' } });
    expect(sheet.headers['vary']).toContain('Accept');
    const [head, ...lines] = sheet.text.trimEnd().split('\r\n');
    expect(head).toMatch(/^player,side,situation,dimension,value,count,known,/);
    expect(lines).toContainEqual(
      expect.stringMatching(/^Mossback,offense,all snaps,run or pass called,run,12,12,12,1,1,/),
    );
    const json = await asSheet('profile', 'application/json');
    expect(json.headers['etag']).not.toBe(sheet.headers['etag']);
    const again = await api
      .as(clan)
      .get(`/v1/players/${await mossback()}/profile`)
      .set('Accept', 'text/csv')
      .set('If-None-Match', sheet.headers['etag'] ?? '');
    expect(again.status).toBe(304);
  });

  it('have tells and leads, told apart in a column', async () => {
    const leading = snaps(48, (place) => ({
      motion: place % 4 === 0 ? 'jet' : 'none',
      callFamily: place % 8 === 0 || place % 3 === 1 ? 'run' : 'dropback pass',
    }));
    await load(clan, [...TWO_PLAYERS, ...gamesOf([leading])]);
    const lines = (await asSheet('tells')).text.trimEnd().split('\r\n').slice(1);
    const { body } = await read('tells');
    const found = body as { tells: unknown[]; leads: unknown[] };
    expect(lines).toHaveLength(found.tells.length + found.leads.length);
    expect(lines.length).toBeGreaterThan(0);
    for (const line of lines) expect(line).toMatch(/^(tell|unproven),/);
  });

  it('are refused as anything else', async () => {
    await load(clan, TWO_PLAYERS);
    expect(await asSheet('profile', 'text/html')).toMatchObject({
      status: 406,
      body: { code: 'request.not_acceptable' },
    });
  });
});

describe('a player with thirty half-filled plays', () => {
  const thirty = snaps(30, (place) => ({
    ...(place % 2 === 0 ? { motion: place % 4 === 0 ? 'jet' : 'none' } : {}),
    ...(place % 3 === 0 ? {} : { callFamily: place % 4 === 0 ? 'run' : 'dropback pass' }),
    ...(place % 5 === 0 ? { down: null } : {}),
  }));

  it('gets what there is, and how little it rests on', async () => {
    await load(clan, [...TWO_PLAYERS, ...gamesOf([thirty])]);
    const { body } = await read('tells');
    expect(body.tells).toEqual([]);
    expect(body.restsOn).toMatch(/^rests on 24 plays of 1 game; 6 plays more of unknown down or distance left out/);
    expect(body.known).toContainEqual({ cue: 'motion', known: 15 });
    expect(body.known).toContainEqual({ cue: 'formation', known: 0 });
  });
});

interface ProfiledDimension {
  readonly dimension: string;
  readonly values: readonly Cells[];
  readonly dropped: readonly Cells[];
}

/** A dimension over all snaps. */
function dimensionOf(body: unknown, wanted: string): ProfiledDimension {
  const [all] = (body as { situations: { dimensions: ProfiledDimension[] }[] }).situations;
  const found = all?.dimensions.find(({ dimension }) => dimension === wanted);
  return found ?? { dimension: wanted, values: [], dropped: [] };
}

describe('a profile', () => {
  it('says every share in words when a voice is asked for', async () => {
    await load(clan, [...TWO_PLAYERS, ...gamesOf([motionTells(0)])]);
    const words = async (query: string) => {
      const { body } = await read('profile', query);
      return dimensionOf(body, 'called').values.map((value) => value['words']);
    };
    expect(await words('')).toEqual([undefined, undefined]);
    expect((await words('?voice=scout'))[0]).toMatch(/^all snaps: run 12 of 24, \d+-\d+ %$/);
    expect((await words('?voice=scout&cue=motion:jet'))[1]).toBeUndefined();
    expect((await words('?voice=scout&cue=motion:jet'))[0]).toBe('all snaps with motion jet: run 6 of 6');
    expect((await words('?voice=self'))[0]).toMatch(
      /^an opponent would learn that you call run 12 of 24, .*, all snaps$/,
    );
  });

  it('says what plays added in expected points, where it is known what followed', async () => {
    await load(clan, [...TWO_PLAYERS, ...gamesOf([0, 1].map(motionTells))]);
    const { body } = await read('profile');
    expect(body.expectedPointsPlays).toBe(46);
    // The last play of each chart is followed by nothing.
    expect(body.situations[0].results.expectedPointsAdded).toEqual({
      plays: 46,
      mean: expect.any(Number),
      interval: { lower: expect.any(Number), upper: expect.any(Number) },
    });
  });

  it("sets the player's own earlier half beside the newer one", async () => {
    const runs = snaps(12, () => ({ callFamily: 'run' }));
    const screens = snaps(12, () => ({ callFamily: 'screen', snapResult: 'complete' }));
    await load(clan, [...TWO_PLAYERS, ...gamesOf([runs, runs, screens, screens])]);
    const { body } = await read('profile', '?against=earlier');
    expect(body).toMatchObject({ snaps: 24, games: 2, earlier: { games: 2, snaps: 24, newestGame: '2026-03-02' } });
    const { values, dropped } = dimensionOf(body, 'callFamily');
    expect(values.find(({ label }) => label === 'screen')).toMatchObject({
      count: 24,
      earlier: { count: 0, known: 24, difference: { lower: expect.any(Number), upper: 1 } },
    });
    const run = [...values, ...dropped].find(({ label }) => label === 'run');
    expect(run).toMatchObject({ earlier: { count: 24, known: 24 } });
  });
});
