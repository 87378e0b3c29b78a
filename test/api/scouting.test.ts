import { randomUUID } from 'node:crypto';
import { aClan, type TestClan } from '../support/factories.js';
import { handOf } from '../support/http.js';
import { aGameRecord, aPlayRecord, TWO_PLAYERS } from '../support/small-league.js';
import { loadRecords } from '../support/load-records.js';
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

/** Snaps of Mossback's offense that alternate run, pass, pass. */
function mossbackSnaps(count: number, cells: Cells = {}): Cells[] {
  return Array.from({ length: count }, (_, at) =>
    aPlayRecord({
      order: at + 1,
      down: 1,
      distance: 10,
      yardsToGoal: 60,
      callFamily: at % 3 === 0 ? 'run' : 'dropback pass',
      snapResult: at % 3 === 0 ? 'rushed' : 'complete',
      yardsGained: at % 2 === 0 ? 5 : 2,
      snapSecond: 30 * (at + 1),
      ...cells,
    }),
  );
}

interface Listed {
  readonly items: readonly { readonly id: string; readonly handle?: string; readonly own?: boolean }[];
}

async function playerId(by: TestClan, handle: string): Promise<string> {
  const { items }: Listed = (await api.as(by).get('/v1/players')).body;
  return items.find((player) => player.handle === handle)?.id ?? '';
}

async function eventId(by: TestClan): Promise<string> {
  const { items }: Listed = (await api.as(by).get('/v1/events')).body;
  return items.find((event) => event.own)?.id ?? '';
}

const profileOf = async (by: TestClan, id: string, query = '') => api.as(by).get(`/v1/players/${id}/profile${query}`);

function valuesOf(body: Cells, situation: string, dimension: string): Cells[] {
  const { situations } = body as {
    situations: { situation: string; dimensions: { dimension: string; values: Cells[] }[] }[];
  };
  const found = situations.find((entry) => entry.situation === situation);
  return found?.dimensions.find((entry) => entry.dimension === dimension)?.values ?? [];
}

describe('a profile', () => {
  it('says counts, intervals and what it rests on', async () => {
    await load(clan, [...TWO_PLAYERS, aGameRecord(), ...mossbackSnaps(12)]);
    const { status, body } = await profileOf(clan, await playerId(clan, 'Mossback'), '?evidence=plays');
    expect(status).toBe(200);
    expect(body).toMatchObject({
      handle: 'Mossback',
      side: 'offense',
      confidence: 0.9,
      snaps: 12,
      games: 1,
      newestGame: '2026-03-01',
    });
    const [pass, run] = valuesOf(body, 'all snaps', 'called');
    expect(pass).toMatchObject({ label: 'pass', count: 8 });
    expect(run).toMatchObject({ label: 'run', count: 4, raw: { share: expect.closeTo(1 / 3, 4) } });
    const ids = { chartId: expect.any(String), gameId: expect.any(String) };
    expect(run?.['plays']).toEqual(
      [1, 4, 7, 10].map((playNumber) => ({ ...ids, playNumber, second: 30 * playNumber })),
    );
  });

  it('only names what was done once in a situation, unless the field does it often or it is asked for', async () => {
    const calls = ['run', 'run', 'screen', 'option'];
    const ours = mossbackSnaps(12).map((snap, at) => ({ ...snap, callFamily: calls[at] ?? 'run' }));
    const theirs = mossbackSnaps(12, { game: 'pond-2', offense: 'Brass Heron' });
    await load(clan, [
      ...TWO_PLAYERS,
      aGameRecord(),
      ...ours,
      aGameRecord({ reference: 'pond-2' }),
      ...theirs.map((snap, at) => ({ ...snap, callFamily: at % 2 === 0 ? 'screen' : 'run' })),
    ]);
    const id = await playerId(clan, 'Mossback');
    const told = async (query: string, situation = '1st and 10') => {
      const { body } = await profileOf(clan, id, query);
      const { situations } = body as { situations: { situation: string; dimensions: Cells[] }[] };
      const { dimensions = [] } = situations.find((entry) => entry.situation === situation) ?? {};
      const { values, oneOffs } = dimensions.find(({ dimension }) => dimension === 'callFamily') as {
        values: { label: string }[];
        oneOffs: { label: string }[];
      };
      return { values: values.map(({ label }) => label), oneOffs: oneOffs.map(({ label }) => label) };
    };
    expect(await told('')).toEqual({ values: ['run', 'screen'], oneOffs: ['option'] });
    const all = { values: ['run', 'screen', 'option'], oneOffs: [] };
    expect(await told('', 'all snaps')).toEqual(all);
    for (const query of [
      '?oneOffs=shares',
      '?situation=1st and 10',
      '?evidence=plays',
      '?voice=scout',
      '?against=earlier',
    ]) {
      expect(await told(query)).toEqual(all);
    }
  });

  it('takes an event for one with what it was adopted from, and knows no event that nobody made', async () => {
    const archive = await aClan(api.database.owner);
    await load(archive, TWO_PLAYERS);
    const source = await eventId(archive);
    await handOf(api, archive).show(`/v1/events/${source}`, 'public');
    const adopted = await api.as(clan).post(`/v1/events/${source}/adoption`).send({});
    expect(adopted.status).toBe(201);
    await load(clan, [aGameRecord(), ...mossbackSnaps(12)]);
    const id = await playerId(clan, 'Mossback');
    for (const event of [source, adopted.body.id]) {
      expect((await profileOf(clan, id, `?eventId=${event}`)).body).toMatchObject({ games: 1, snaps: 12 });
    }
    expect(await profileOf(clan, id, `?eventId=${randomUUID()}`)).toMatchObject({
      status: 404,
      body: { code: 'resource.not_found' },
    });
  });

  it('of a player who was never charted is empty, and says so by counts, not by zero shares', async () => {
    await load(clan, TWO_PLAYERS);
    const { body } = await profileOf(clan, await playerId(clan, 'Mossback'));
    expect(body).toMatchObject({ snaps: 0, games: 0, newestGame: null, situations: [] });
  });

  it('is not sent again to a client that has it, and is when anything changed', async () => {
    await load(clan, [...TWO_PLAYERS, aGameRecord(), ...mossbackSnaps(12)]);
    const id = await playerId(clan, 'Mossback');
    const first = await profileOf(clan, id);
    const etag = first.headers['etag'] ?? '';
    const again = await api.as(clan).get(`/v1/players/${id}/profile`).set('If-None-Match', etag);
    expect({ status: again.status, text: again.text }).toEqual({ status: 304, text: '' });
    await load(clan, [aGameRecord({ reference: 'pond-2' }), ...mossbackSnaps(3, { game: 'pond-2' })]);
    const changed = await api.as(clan).get(`/v1/players/${id}/profile`).set('If-None-Match', etag);
    expect(changed).toMatchObject({ status: 200, body: { snaps: 15, games: 2 } });
  });

  it.each([
    ['another clan', 404, 'resource.not_found'],
    ['nobody', 404, 'resource.not_found'],
  ])('of a player of %s is not found', async (whose, status, code) => {
    await load(clan, TWO_PLAYERS);
    const id = whose === 'nobody' ? randomUUID() : await playerId(clan, 'Mossback');
    const other = await aClan(api.database.owner);
    expect(await profileOf(other, id)).toMatchObject({ status, body: { code } });
  });

  it('draws on the games and plays that are asked for', async () => {
    await load(clan, [
      ...TWO_PLAYERS,
      { record: 'player', handle: 'Third' },
      aGameRecord(),
      ...mossbackSnaps(12, { motion: 'jet', coverage: 'tampa 2' }),
      aGameRecord({
        reference: 'pond-2',
        event: undefined,
        home: 'Third',
        importance: 'elimination',
        rulesVersion: '2',
        playedAt: '2026-05-01T12:00:00Z',
      }),
      ...mossbackSnaps(6, { game: 'pond-2' }),
    ]);
    const id = await playerId(clan, 'Mossback');
    const snaps = async (query: string): Promise<unknown> => (await profileOf(clan, id, query)).body.snaps;
    expect(await snaps('')).toBe(18);
    expect(await snaps(`?eventId=${await eventId(clan)}`)).toBe(12);
    expect(await snaps(`?opponentId=${await playerId(clan, 'Third')}`)).toBe(6);
    expect(await snaps('?from=2026-04-01')).toBe(6);
    expect(await snaps('?to=2026-04-01')).toBe(12);
    expect(await snaps('?rulesVersion=2')).toBe(6);
    expect(await snaps('?importance=elimination')).toBe(6);
    expect(await snaps('?cue=motion:fly motion')).toBe(12);
    expect(await snaps('?cue=motion:jet&cue=coverage:cover 2')).toBe(12);
    expect(await snaps('?cue=motion:orbit')).toBe(0);
    const only = await profileOf(clan, id, '?situation=1st and 10');
    expect(only.body).toMatchObject({ situations: [{ situation: '1st and 10', snaps: 18 }] });
  });

  it('lets older games count less', async () => {
    await load(clan, [
      ...TWO_PLAYERS,
      aGameRecord(),
      ...mossbackSnaps(10, { callFamily: 'run', snapResult: 'rushed' }),
      aGameRecord({ reference: 'pond-2', playedAt: '2026-03-11T12:00:00Z' }),
      ...mossbackSnaps(10, { game: 'pond-2', callFamily: 'screen', snapResult: 'complete' }),
    ]);
    const { body } = await profileOf(clan, await playerId(clan, 'Mossback'), '?halfLifeDays=10');
    // Ten days are one half-life: ten runs weigh as five, so 5 of 15.
    const run = valuesOf(body, 'all snaps', 'called').find(({ label }) => label === 'run');
    expect(run).toMatchObject({ count: 10, raw: { share: expect.closeTo(1 / 3, 4) } });
  });

  it.each([
    ['cue=motion', 'cue'],
    ['cue=colour:red', 'cue'],
    ['cue=motion:unknown', 'cue'],
    ['cue=motion:jett', 'cue'],
    ['situation=5th down', 'situation'],
    ['halfLifeDays=0', 'halfLifeDays'],
    ['from=yesterday', 'from'],
    ['importance=high', 'importance'],
  ])('refuses ?%s', async (query, field) => {
    await load(clan, [...TWO_PLAYERS, aGameRecord(), ...mossbackSnaps(3)]);
    expect(await profileOf(clan, await playerId(clan, 'Mossback'), `?${query}`)).toMatchObject({
      status: 400,
      body: { code: 'request.invalid', errors: expect.arrayContaining([expect.objectContaining({ field })]) },
    });
  });

  it('refuses what it does not know', async () => {
    expect(await profileOf(clan, randomUUID(), '?side=middle&confidence=2')).toMatchObject({
      status: 400,
      body: {
        code: 'request.invalid',
        errors: expect.arrayContaining([expect.objectContaining({ field: 'side', found: 'middle' })]),
      },
    });
  });

  it.each([
    ['confidence=abc', { field: 'confidence', found: 'abc', expected: 'a number, at least 0.5, at most 0.99' }],
    ['confidence=', { field: 'confidence', found: '', expected: 'a number, at least 0.5, at most 0.99' }],
    [
      'confidence=Infinity',
      { field: 'confidence', found: 'Infinity', expected: 'a number, at least 0.5, at most 0.99' },
    ],
    ['confidence=2', { field: 'confidence', found: '2', expected: 'at most 0.99' }],
    ['colour=red', { field: 'colour', found: 'red', expected: 'is no parameter here' }],
  ])('tells of ?%s once, as it was sent and in plain words', async (query, problem) => {
    expect((await profileOf(clan, randomUUID(), `?${query}`)).body.errors).toEqual([problem]);
  });
});

describe('an event that is published', () => {
  it('is read by every clan from then on, and by none once withdrawn', async () => {
    await load(clan, [...TWO_PLAYERS, aGameRecord(), ...mossbackSnaps(12)]);
    const id = await playerId(clan, 'Mossback');
    const event = await eventId(clan);
    const our = handOf(api, clan);
    const reader = await aClan(api.database.owner);
    expect((await profileOf(reader, id)).status).toBe(404);
    expect((await our.show(`/v1/events/${event}`, 'public')).status).toBe(200);
    expect(await profileOf(reader, id)).toMatchObject({ status: 200, body: { handle: 'Mossback', snaps: 12 } });
    expect((await api.as(reader).get(`/v1/events/${event}/bracket`)).body.matches).toMatchObject([
      { home: 'Brass Heron', away: 'Mossback', roundName: 'final' },
    ]);
    expect((await handOf(api, reader).show(`/v1/events/${event}`, 'public')).status).toBe(404);
    expect((await our.show(`/v1/events/${event}`, 'private')).status).toBe(200);
    expect((await profileOf(reader, id)).status).toBe(404);
    expect(await profileOf(clan, id)).toMatchObject({ status: 200, body: { snaps: 12 } });
  });

  it('counts one contest once, by the own chart, where two clans charted it', async () => {
    const archive = await aClan(api.database.owner);
    const contestId = randomUUID();
    await load(archive, [
      ...TWO_PLAYERS,
      aGameRecord({ contestId }),
      ...mossbackSnaps(12),
      aGameRecord({ reference: 'pond-2' }),
      ...mossbackSnaps(6, { game: 'pond-2' }),
    ]);
    await handOf(api, archive).show(`/v1/events/${await eventId(archive)}`, 'public');
    const linkedPlayerId = await playerId(archive, 'Mossback');
    await load(clan, [
      { record: 'player', handle: 'moss (them)', linkedPlayerId },
      { record: 'player', handle: 'Heron' },
      aGameRecord({
        event: undefined,
        reference: 'ours',
        home: 'Heron',
        away: 'moss (them)',
        linkedContestId: contestId,
      }),
      ...mossbackSnaps(10, { game: 'ours', offense: 'moss (them)', callFamily: 'screen' }),
    ]);
    const own = await profileOf(clan, await playerId(clan, 'moss (them)'));
    // Ten snaps of the own chart of the contest, six of the other public game; the public chart of the contest not.
    expect(own).toMatchObject({ status: 200, body: { handle: 'moss (them)', snaps: 16, games: 2 } });
    expect(valuesOf(own.body, 'all snaps', 'callFamily')[0]).toMatchObject({ label: 'screen', count: 10 });
    // The same person, asked for by the public record's id.
    expect((await profileOf(clan, linkedPlayerId)).body).toMatchObject({ handle: 'moss (them)', snaps: 16 });
    expect((await profileOf(archive, linkedPlayerId)).body).toMatchObject({ handle: 'Mossback', snaps: 18 });
  });
});

describe('a round report', () => {
  const make = (by: TestClan, body: Cells) => api.as(by).post('/v1/round-reports').send(body);

  it('is on the next opponent of the bracket, and is frozen when made', async () => {
    await load(clan, [...TWO_PLAYERS, aGameRecord(), ...mossbackSnaps(12)]);
    const made = await make(clan, { eventId: await eventId(clan), playerId: await playerId(clan, 'Brass Heron') });
    expect(made).toMatchObject({
      status: 201,
      body: { opponent: 'Mossback', round: 'final', sample: { games: 1, offenseSnaps: 12 }, offense: { snaps: 12 } },
    });
    expect(made.headers['location']).toBe(`/v1/round-reports/${made.body.id}`);
    await load(clan, [aGameRecord({ reference: 'pond-2' }), ...mossbackSnaps(9, { game: 'pond-2' })]);
    const { body } = await api.as(clan).get(`/v1/round-reports/${made.body.id}`);
    expect(body).toEqual(made.body);
  });

  it('is told in the form that was asked for', async () => {
    await load(clan, [...TWO_PLAYERS, aGameRecord(), ...mossbackSnaps(12)]);
    const { body } = await make(clan, { eventId: await eventId(clan), opponentId: await playerId(clan, 'Mossback') });
    const as = (accept: string) => api.as(clan).get(`/v1/round-reports/${body.id}`).set('Accept', accept);
    const [text, markdown, json, refused] = [
      await as('text/plain'),
      await as('text/markdown'),
      await as('*/*'),
      await as('image/png'),
    ];
    expect(text.headers['content-type']).toBe('text/plain; charset=utf-8');
    expect(text.text).toContain('Mossback');
    expect(text.text).toContain('whether aids like this may be used during play');
    expect(markdown.headers['content-type']).toBe('text/markdown; charset=utf-8');
    expect(markdown.text).toMatch(/^# .*Mossback/);
    expect(json.headers['content-type']).toMatch(/^application\/json/);
    expect(refused).toMatchObject({ status: 406, body: { code: 'request.not_acceptable' } });
    expect(text.headers['vary']).toMatch(/Accept/);
  });

  it('keeps ids, never handles, and shows a handle as it is now', async () => {
    await load(clan, [...TWO_PLAYERS, aGameRecord(), ...mossbackSnaps(12)]);
    const { body } = await make(clan, { eventId: await eventId(clan), opponentId: await playerId(clan, 'Mossback') });
    const { rows } = await api.database.owner.query<{ body: unknown }>('select body from round_report where id = $1', [
      body.id,
    ]);
    expect(JSON.stringify(rows)).not.toMatch(/Mossback|Heron/);
    await api.database.owner.query(`update player set handle = 'Renamed' where clan_id = $1 and handle = 'Mossback'`, [
      clan.id,
    ]);
    const { text } = await api.as(clan).get(`/v1/round-reports/${body.id}`).set('Accept', 'text/plain');
    expect(text).toContain('Renamed');
    expect(text).not.toContain('Mossback');
  });

  it('says why there is nobody to scout', async () => {
    const bracket = (record: Cells) =>
      record['record'] === 'match' ? { ...record, status: 'finished', winner: 'Mossback' } : record;
    await load(clan, TWO_PLAYERS.map(bracket));
    const refused = await make(clan, { eventId: await eventId(clan), playerId: await playerId(clan, 'Mossback') });
    expect(refused).toMatchObject({ status: 422, body: { code: 'report.nothing_to_scout' } });
  });

  it('of another clan is not found', async () => {
    await load(clan, [...TWO_PLAYERS, aGameRecord(), ...mossbackSnaps(12)]);
    const { body } = await make(clan, { eventId: await eventId(clan), opponentId: await playerId(clan, 'Mossback') });
    const other = await aClan(api.database.owner);
    expect(await api.as(other).get(`/v1/round-reports/${body.id}`)).toMatchObject({
      status: 404,
      body: { code: 'resource.not_found' },
    });
  });

  it.each([
    ['no event', {}, 'eventId'],
    ['an id that is no UUID', { eventId: 'pond-cup' }, 'eventId'],
    ['a field that does not exist', { eventId: randomUUID(), colour: 'red' }, 'colour'],
  ])('refuses %s', async (_what, body, field) => {
    expect(await make(clan, body)).toMatchObject({
      status: 400,
      body: { code: 'request.invalid', errors: expect.arrayContaining([expect.objectContaining({ field })]) },
    });
  });

  it('refuses a body that is no JSON, and one that is too large', async () => {
    const send = (body: string) =>
      api.as(clan).post('/v1/round-reports').set('Content-Type', 'application/json').send(body);
    expect(await send('{"eventId":')).toMatchObject({ status: 400, body: { code: 'request.invalid' } });
    expect(await send(`{"eventId":"${'x'.repeat(300_000)}"}`)).toMatchObject({
      status: 413,
      body: { code: 'request.too_large' },
    });
  });
});

describe('the documents', () => {
  it('describe the API, and answer unknown addresses with a problem', async () => {
    const { body } = await api.anonymous.get('/openapi.json');
    expect(body.openapi).toBe('3.1.0');
    expect(Object.keys(body.paths)).toEqual(
      expect.arrayContaining(['/v1/imports', '/v1/players/{playerId}/profile', '/v1/round-reports/{reportId}']),
    );
    // What the description makes of a field whose type nobody named.
    expect(JSON.stringify(body)).not.toContain('#/components/schemas/Object"');
    expect((await api.anonymous.get('/docs/')).text).toContain('Roundbook');
    expect(await api.anonymous.get('/v2/anything')).toMatchObject({ status: 404, body: { code: 'request.not_found' } });
  });
});
