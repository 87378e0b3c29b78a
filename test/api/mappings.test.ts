import { randomUUID } from 'node:crypto';
import { messySheet, MESSY_MAPPING } from '../support/messy-sheet.js';
import { aClan, type TestClan } from '../support/factories.js';
import { aGameRecord, TWO_PLAYERS } from '../support/small-league.js';
import { loadRecords } from '../support/load-records.js';
import { jsonLines, startTestApi, type TestApi } from '../support/test-api.js';

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
  const games = [aGameRecord({ id: gameId }), aGameRecord({ reference: 'pond-2' })];
  await loadRecords(api, clan, [...TWO_PLAYERS, ...games]);
});

const HEADERS = ['Gm', 'Ball', 'Situation', 'Spot', 'Look', 'Call', 'Gain', 'Mood', 'Note'];

function aMapping(rest: Cells = {}): Cells {
  return {
    name: 'season sheet',
    headers: HEADERS,
    columns: [
      { header: 'Gm', to: 'game' },
      { header: 'Ball', possession: { us: ['O'], them: ['D'] } },
      { header: 'Situation', read: 'down and distance' },
      { header: 'Spot', read: 'signed spot' },
      { header: 'Look', split: ['backfield', 'formation', 'strength', 'motion'] },
      {
        header: 'Call',
        to: 'callFamily',
        words: [{ word: 'handoff left', is: { callFamily: 'run', designedSide: 'left' } }],
      },
      { header: 'Gain', to: 'yardsGained', read: 'first number' },
      { header: 'Mood', ignore: true },
    ],
    constants: { playType: 'scrimmage' },
    us: 'Mossback',
    order: 'rows',
    ...rest,
  };
}

async function keep(mapping: Cells): Promise<string> {
  const response = await api.as(clan).post('/v1/sheet-mappings').send(mapping);
  expect(response).toMatchObject({ status: 201 });
  const { id } = response.body as { id: string };
  return id;
}

const sheet = (rows: readonly string[], query: string, path = '/v1/imports') =>
  api
    .as(clan)
    .post(`${path}?${query}`)
    .set('Content-Type', 'text/csv')
    .send([HEADERS.join(','), ...rows].join('\n'));

async function plays(): Promise<Record<string, unknown>[]> {
  const { rows } = await api.database.owner.query<Record<string, unknown>>(
    `select g.reference as game, p.order_in_game as order, o.handle as offense, p.down, p.distance,
            p.yards_to_goal as spot, b.name as backfield, f.name as formation, p.strength, m.name as motion,
            k.name as call, p.designed_side as side, p.yards_gained as gain, p.note
       from play p join game g on g.clan_id = p.clan_id and g.id = p.game_id
       join player o on o.clan_id = p.clan_id and o.id = p.offense_player_id
       left join term b on b.id = p.backfield left join term f on f.id = p.formation
       left join term m on m.id = p.motion left join term k on k.id = p.call_family
      where p.clan_id = $1 order by g.reference, p.order_in_game`,
    [clan.id],
  );
  return rows;
}

describe("a person's own sheet", () => {
  it('is brought in as its mapping says', async () => {
    const mapping = await keep(aMapping());
    const response = await sheet(
      [
        'pond-1,O,1st & 10,-25,gun trips rt jet,handoff left,6 yds,fine,"first, of many"',
        'pond-1,O,2nd & 4,-31,short gun 2x2,RPO,-2,,',
        'pond-1,D,1 & goal,+8,,run,8,?,',
        'pond-2,D,,,strong I twins l,,,,',
      ],
      `mapping=${mapping}`,
    );
    expect(response).toMatchObject({
      status: 201,
      body: { created: { chart: 2, play: 4 }, totalLeftovers: 0, leftovers: [] },
    });
    expect(await plays()).toMatchObject([
      {
        ...{ game: 'pond-1', order: 1, offense: 'Mossback', down: 1, distance: 10, spot: 75, gain: 6 },
        ...{ backfield: 'shotgun', formation: 'three by one', strength: 'right', motion: 'jet' },
        ...{ call: 'run', side: 'left', note: 'first, of many' },
      },
      { order: 2, down: 2, distance: 4, spot: 69, backfield: 'pistol', call: 'run-pass option', gain: -2 },
      { order: 3, offense: 'Brass Heron', down: 1, distance: 8, spot: 8, gain: 8 },
      { game: 'pond-2', order: 1, formation: 'twins', strength: 'left', down: null },
    ]);
  });

  it('may be of one game, and is the same chart when it comes again', async () => {
    const mapping = await keep(aMapping());
    const path = `/v1/games/${gameId}/charts`;
    const rows = ['pond-1,O,1st & 10,-25,gun trips,run,6,,'];
    expect(await sheet(rows, `mapping=${mapping}`, path)).toMatchObject({ body: { created: { play: 1 } } });
    expect(await sheet(rows, `mapping=${mapping}`, path)).toMatchObject({ status: 201, body: { created: {} } });
  });

  it('tells what was left over, each cell once, and brings in the rest', async () => {
    const mapping = await keep(aMapping());
    const rows = [
      'pond-1,O,,,gun nub zip,,,,',
      'pond-1,O,,,gun trips twins,,,,',
      'pond-1,O,,,gun nub zip,,,,',
      'pond-1,O,,,gun jet,,,,',
    ];
    const response = await sheet(rows, `mapping=${mapping}`);
    expect(response).toMatchObject({
      status: 201,
      body: {
        totalLeftovers: 3,
        leftovers: [
          { header: 'Look', cell: 'gun nub zip', words: ['nub zip'], reason: 'not understood', count: 2, firstRow: 2 },
          { cell: 'gun trips twins', words: ['trips', 'twins'], reason: 'contradicts itself', count: 1, firstRow: 3 },
        ],
      },
    });
    expect((await plays()).map(({ backfield, formation }) => [backfield, formation])).toEqual(
      Array.from({ length: 4 }, () => ['shotgun', null]),
    );
  });

  it('is refused with leftovers where that was asked for, and nothing is written', async () => {
    const mapping = await keep(aMapping());
    const response = await sheet(['pond-1,O,,,gun nub zip,,,,'], `mapping=${mapping}&leftovers=refuse`);
    expect(response).toMatchObject({
      status: 422,
      body: {
        code: 'import.refused',
        errors: [{ row: 2, field: 'Look', found: 'gun nub zip', expected: expect.stringContaining('nub zip') }],
      },
    });
    expect(await plays()).toEqual([]);
  });

  it('is asked about a word that is never guessed, once a sheet, until the mapping answers', async () => {
    const mapping = await keep(aMapping());
    const rows = ['pond-1,O,,,gun slot rt,,,,', 'pond-1,O,,,slot,,,,', 'pond-1,O,,,pistol slot,,,,'];
    expect(await sheet(rows, `mapping=${mapping}`)).toMatchObject({
      status: 422,
      body: {
        totalErrors: 1,
        errors: [{ row: 2, field: 'Look', found: 'slot', expected: expect.stringContaining('receiver') }],
      },
    });
    const answered = await keep(
      aMapping({ name: 'answered', answers: [{ word: 'slot', is: { formation: 'twins' } }] }),
    );
    expect(await sheet(rows, `mapping=${answered}`)).toMatchObject({ status: 201 });
    expect((await plays()).map(({ formation }) => formation)).toEqual(['twins', 'twins', 'twins']);
  });

  it('is told of every cell that cannot be read, under its own header, once', async () => {
    const mapping = await keep(aMapping());
    const rows = ['pond-1,X,5th & 1,-25,,dance,,,', 'pond-1,O,3rd & 2,77,,dance,much,,'];
    const { body } = await sheet(rows, `mapping=${mapping}`);
    const { errors } = body as { errors: { row: number; field: string; found: string }[] };
    expect(errors.map(({ row, field, found }) => [row, field, found])).toEqual([
      [2, 'Ball', 'X'],
      [2, 'Situation', '5th & 1'],
      [2, 'Call', 'dance'],
      [2, 'offense', ''],
      [3, 'Spot', '77'],
      [3, 'Gain', 'much'],
    ]);
    expect(await plays()).toEqual([]);
  });

  it('with a header that the mapping does not know, or without what is needed, is told so at once', async () => {
    const mapping = await keep(aMapping({ constants: {} }));
    const response = await api
      .as(clan)
      .post(`/v1/imports?mapping=${mapping}`)
      .set('Content-Type', 'text/csv')
      .send('Gm,Ball,Weather\npond-1,O,dry\n');
    expect(response).toMatchObject({
      status: 422,
      body: {
        errors: [
          { row: 1, field: 'Weather', found: 'Weather', expected: expect.stringContaining('ignore') },
          { row: 1, field: 'playType', found: '' },
        ],
      },
    });
  });

  it('needs a mapping that is there, and a sheet', async () => {
    const row = ['pond-1,O,,,,,,,'];
    expect(await sheet(row, `mapping=${randomUUID()}`)).toMatchObject({ status: 404 });
    expect(await sheet(row, 'mapping=season')).toMatchObject({ status: 400, body: { errors: [{ field: 'mapping' }] } });
    const mapping = await keep(aMapping());
    const lines = api.as(clan).post(`/v1/imports?mapping=${mapping}`).set('Content-Type', 'application/x-ndjson');
    expect(await lines.send('{}\n')).toMatchObject({ status: 400, body: { errors: [{ field: 'mapping' }] } });
    const other = await aClan(api.database.owner);
    expect(await api.as(other).get(`/v1/sheet-mappings/${mapping}`)).toMatchObject({ status: 404 });
  });

  it('of a hundred thousand messy rows is brought in whole, with what was left over', async () => {
    const size = { games: 500, playsAGame: 200, seed: 7 };
    const games = Array.from({ length: size.games }, (_, game) => `marsh-${game + 1}`);
    const archive = jsonLines([
      ...TWO_PLAYERS.slice(0, 2),
      ...games.map((reference) => ({ ...aGameRecord({ reference }), event: undefined, videos: undefined })),
    ]);
    expect(
      await api.as(clan).post('/v1/imports').set('Content-Type', 'application/x-ndjson').send(archive),
    ).toMatchObject({ status: 201, body: { created: { game: size.games } } });
    const mapping = await keep(MESSY_MAPPING);
    const rows = [...messySheet(size, games)].join('');
    const response = await api
      .as(clan)
      .post(`/v1/imports?mapping=${mapping}`)
      .set('Content-Type', 'text/csv')
      .send(rows);
    expect(response).toMatchObject({ status: 201, body: { created: { chart: size.games, play: 100_000 } } });
    // The sheet itself, counted without the mapping's reader: one row in twenty has the word that nobody knows.
    const unknown = rows.match(/zzz/g)?.length ?? 0;
    expect(unknown).toBeGreaterThan(4_500);
    const { totalLeftovers, leftovers } = response.body as { totalLeftovers: number; leftovers: { words: string[] }[] };
    expect(totalLeftovers).toBe(unknown);
    expect(new Set(leftovers.flatMap(({ words }) => words))).toEqual(new Set(['zzz']));
    const { rows: counts } = await api.database.owner.query(
      `select count(*)::int as plays, count(distinct p.game_id)::int as games,
              count(*) filter (where k.code is not null and k.name = 'run-pass option')::int as options,
              count(*) filter (where p.play_fake = 'yes')::int as fakes
         from play p left join term k on k.id = p.call_family where p.clan_id = $1`,
      [clan.id],
    );
    const saying = (call: string): number => rows.match(new RegExp(`,${call},`, 'g'))?.length ?? 0;
    expect(counts).toEqual([{ plays: 100_000, games: size.games, options: saying('RPO'), fakes: saying('boot') }]);
  });
});

describe('a sheet mapping', () => {
  it('is kept, listed, read, changed and removed', async () => {
    const made = await api.as(clan).post('/v1/sheet-mappings').send(aMapping());
    const { id } = made.body as { id: string };
    expect(made.headers['location']).toBe(`/v1/sheet-mappings/${id}`);
    const read = await api.as(clan).get(`/v1/sheet-mappings/${id}`);
    expect(read).toMatchObject({ status: 200, body: { id, ...aMapping(), answers: [] } });
    const etag = read.headers['etag'] ?? '';
    expect(etag).toBe(made.headers['etag']);
    await keep(aMapping({ name: 'another' }));
    expect((await api.as(clan).get('/v1/sheet-mappings?fields=name')).body).toMatchObject({
      items: [{ name: 'another' }, { name: 'season sheet' }],
      next: null,
    });

    const change = (ifMatch: string | null, patch: Cells) => {
      const request = api.as(clan).patch(`/v1/sheet-mappings/${id}`).type('application/merge-patch+json');
      return (ifMatch === null ? request : request.set('If-Match', ifMatch)).send(JSON.stringify(patch));
    };
    expect(await change(null, { us: 'Brass Heron' })).toMatchObject({ status: 428 });
    expect(await change('"stale"', { us: 'Brass Heron' })).toMatchObject({ status: 412 });
    expect(await change(etag, { name: 'another' })).toMatchObject({ status: 409, body: { code: 'resource.taken' } });
    expect(await change(etag, { us: 'Brass Heron' })).toMatchObject({ status: 200, body: { us: 'Brass Heron' } });
    expect(await change(etag, { us: 'Mossback' })).toMatchObject({ status: 412 });
    const remove = (ifMatch: string) => api.as(clan).delete(`/v1/sheet-mappings/${id}`).set('If-Match', ifMatch);
    expect(await remove(etag)).toMatchObject({ status: 412 });
    expect(await remove('*')).toMatchObject({ status: 204 });
    expect(await api.as(clan).get(`/v1/sheet-mappings/${id}`)).toMatchObject({ status: 404 });
  });

  it.each<[string, Cells, string]>([
    ['an unknown field', { columns: [{ header: 'Gm', to: 'colour' }] }, 'columns.0.to'],
    ['a column without a use', { columns: [{ header: 'Gm' }] }, 'columns.0'],
    ['a word that is no word', { answers: [{ word: 'slot', is: { formation: 'dance' } }] }, 'answers.0.is.formation'],
    ['possession of nobody', { us: null }, 'us'],
    ['numbers as constants', { constants: { down: 1 } }, 'constants'],
    ['something else', { colour: 'red' }, 'colour'],
    ['no headers', { headers: [] }, 'headers'],
  ])('is refused with %s', async (_what, rest, field) => {
    const response = await api.as(clan).post('/v1/sheet-mappings').send(aMapping(rest));
    expect(response).toMatchObject({
      status: 400,
      body: { code: 'request.invalid', errors: expect.arrayContaining([expect.objectContaining({ field })]) },
    });
  });
});

describe('a suggested mapping', () => {
  const suggest = (body: Cells) => api.as(clan).post('/v1/sheet-mappings/suggestions').send(body);

  it('is the one that the clan has kept for the same headers, whatever their order', async () => {
    expect(await suggest({ headers: HEADERS })).toMatchObject({ status: 200, body: { saved: null } });
    const id = await keep(aMapping());
    expect(await suggest({ headers: [...HEADERS].reverse() })).toMatchObject({ body: { saved: { id } } });
    expect(await suggest({ headers: [...HEADERS, 'more'] })).toMatchObject({ body: { saved: null } });
    const other = await aClan(api.database.owner);
    const theirs = await api.as(other).post('/v1/sheet-mappings/suggestions').send({ headers: HEADERS });
    expect(theirs).toMatchObject({ status: 200, body: { saved: null } });
  });

  it('is a guess with what only the person knows, and becomes a mapping once that is said', async () => {
    const headers = ['Ball', 'Situation', 'Look', 'Weather'];
    const rows = [
      ['O', '1st & 10', 'gun trips rt', 'dry'],
      ['D', '2nd & 3', 'gun slot lt', 'wet'],
    ];
    const { status, body } = await suggest({ headers, rows });
    expect({ status, body }).toMatchObject({
      status: 200,
      body: {
        columns: [
          { header: 'Ball', column: { possession: { us: ['O'], them: ['D'] } }, confidence: 1 },
          { header: 'Situation', column: { read: 'down and distance' }, confidence: 1 },
          { header: 'Look', column: { split: ['backfield', 'formation', 'strength', 'motion'] }, confidence: 0.75 },
          { header: 'Weather', column: null, confidence: 0 },
        ],
        questions: [
          { kind: 'word', header: 'Look', found: 'slot', rows: 1 },
          { kind: 'header', header: 'Weather', rows: 2 },
          { kind: 'missing', found: 'game' },
          { kind: 'missing', found: 'us' },
        ],
        draft: { order: 'rows', constants: { playType: 'scrimmage' } },
      },
    });
    const { draft } = body as { draft: { columns: Cells[] } };
    const id = await keep({
      ...draft,
      ...{ name: 'from the draft', headers, us: 'Mossback', answers: [{ word: 'slot', is: { formation: 'twins' } }] },
      columns: [...draft.columns, { header: 'Weather', ignore: true }],
    });
    const response = await api
      .as(clan)
      .post(`/v1/games/${gameId}/charts?mapping=${id}`)
      .set('Content-Type', 'text/csv')
      .send([headers, ...rows].map((row) => row.join(',')).join('\n'));
    expect(response).toMatchObject({ status: 201, body: { created: { play: 2 } } });
  });

  it('is refused for more than a header and fifty rows', async () => {
    expect(await suggest({ headers: [] })).toMatchObject({ status: 400 });
    const rows = Array.from({ length: 51 }, () => ['x']);
    expect(await suggest({ headers: ['a'], rows })).toMatchObject({
      status: 400,
      body: { errors: [{ field: 'rows' }] },
    });
    expect(await suggest({ headers: ['a'], rows: [[1]] })).toMatchObject({ status: 400 });
  });
});
