import { randomUUID } from 'node:crypto';
import { unpackPlays } from '#domain/charting/packed-plays.js';
import { PLAY_FIELDS, columnName } from '#domain/charting/play-fields.js';
import type { Column, PlayValue } from '#domain/charting/play-columns.js';
import { aClan, type TestClan } from '../support/factories.js';
import { aGameRecord, aPlayRecord, SMALL_LEAGUE, TWO_PLAYERS } from '../support/small-league.js';
import { jsonLines, startTestApi, type TestApi } from '../support/test-api.js';

let api: TestApi;
let clan: TestClan;

beforeAll(async () => {
  api = await startTestApi({ bodyLimitBytes: 1_000_000 });
});
afterAll(() => api.close());
beforeEach(async () => {
  clan = await aClan(api.database.owner);
});

const records = (body: string, path = '/v1/imports') =>
  api.as(clan).post(path).set('Content-Type', 'application/x-ndjson').send(body);
const sheet = (body: string | Buffer, path = '/v1/imports') =>
  api.as(clan).post(path).set('Content-Type', 'text/csv').send(body);

async function count(table: string): Promise<number> {
  const { rows } = await api.database.owner.query<{ count: number }>(
    `select count(*)::int as count from ${table} where clan_id = $1`,
    [clan.id],
  );
  return rows[0]?.count ?? -1;
}

describe('an import', () => {
  it('brings in players, events, games and plays, and says what it made', async () => {
    const { status, body } = await records(SMALL_LEAGUE);
    expect({ status, body }).toMatchObject({
      status: 201,
      body: {
        mode: 'commit',
        created: {
          player: 2,
          player_alias: 1,
          event: 1,
          entrant: 2,
          match: 1,
          contest: 1,
          game: 1,
          game_video: 1,
          chart: 1,
          play: 4,
        },
        matched: {},
        charts: [{ game: 'pond-1', chart: 'main', plays: 4, revision: 1, created: true }],
        totalContinuityBreaks: 0,
      },
    });
    expect(await count('play')).toBe(4);
  });

  describe('of many rows', () => {
    const MANY = 500;
    const manyPlayers = (): string =>
      jsonLines(Array.from({ length: MANY }, (_, at) => ({ record: 'player', handle: `player ${at}` })));
    const planned = async (): Promise<number> => {
      const { rows } = await api.database.owner.query<{ rows: number }>(
        `select reltuples::int as rows from pg_class where oid = 'public.player'::regclass`,
      );
      return rows[0]?.rows ?? -1;
    };

    it('lets the planner know of them at once', async () => {
      expect(await planned()).toBeLessThan(MANY);
      await records(manyPlayers()).expect(201);
      expect(await planned()).toBeGreaterThanOrEqual(MANY);
    });

    it('is in although the planner could not be told', async () => {
      const { owner } = api.database;
      await owner.query(`revoke execute on function app.analyze_grown_tables from roundbook_service`);
      try {
        await records(manyPlayers()).expect(201);
        expect(await count('player')).toBe(MANY);
      } finally {
        await owner.query(`grant execute on function app.analyze_grown_tables to roundbook_service`);
      }
    });
  });

  it('only checks with mode=check', async () => {
    const { status, body } = await records(SMALL_LEAGUE, '/v1/imports?mode=check');
    expect(status).toBe(200);
    expect(body).toMatchObject({ mode: 'check', created: { play: 4 } });
    expect(await count('player')).toBe(0);
  });

  it('gives a chart no id with mode=check, unless it is there', async () => {
    const check = () => records(SMALL_LEAGUE, '/v1/imports?mode=check');
    expect((await check()).body.charts).toMatchObject([{ game: 'pond-1', chartId: null, created: true }]);
    const { body } = await records(SMALL_LEAGUE);
    const { chartId } = body.charts[0];
    expect((await api.as(clan).get(`/v1/charts/${chartId}`)).status).toBe(200);
    expect((await check()).body.charts).toMatchObject([{ game: 'pond-1', chartId, created: false }]);
  });

  it('sent again with the same key is answered as the first, and done once', async () => {
    const send = (body: string, path = '/v1/imports') => records(body, path).set('Idempotency-Key', 'a retry');
    const first = await send(SMALL_LEAGUE);
    expect(first).toMatchObject({ status: 201, body: { created: { play: 4 } } });
    // What was edited since does not matter to whoever only asks again.
    await api.database.owner.query('update chart set revision = 2 where clan_id = $1', [clan.id]);
    const again = await send(SMALL_LEAGUE);
    expect({ status: again.status, body: again.body }).toEqual({ status: 201, body: first.body });
    const otherFile = await send(jsonLines(TWO_PLAYERS));
    expect(otherFile).toMatchObject({ status: 422, body: { code: 'request.key_reused' } });
    const otherWish = await send(SMALL_LEAGUE, '/v1/imports?leftovers=refuse');
    expect(otherWish).toMatchObject({ status: 422, body: { code: 'request.key_reused' } });
  });

  it('that was refused leaves its key free', async () => {
    const send = (body: string) => records(body).set('Idempotency-Key', 'second try');
    expect(await send(jsonLines([aPlayRecord()]))).toMatchObject({ status: 422, body: { code: 'import.refused' } });
    expect(await send(SMALL_LEAGUE)).toMatchObject({ status: 201, body: { created: { play: 4 } } });
  });

  it('changes nothing when the same file is sent twice', async () => {
    await records(SMALL_LEAGUE);
    const { body } = await records(SMALL_LEAGUE);
    expect(body).toMatchObject({
      created: {},
      matched: { player: 2, event: 1, entrant: 2, match: 1, game: 1, chart: 1 },
      charts: [{ created: false }],
    });
    expect(await count('play')).toBe(4);
  });

  it('knows the same plays in other words and another format', async () => {
    await records(SMALL_LEAGUE);
    const { status, body } = await sheet(
      [
        'Game,Order,Offense,Play type,Down,Distance,Yards to goal,Formation,Call family,Yards gained,Snap result,Led to',
        'pond-1,1,mossback,SCRIMMAGE,1,10,75,three by one,rush,6,rushed,',
        'pond-1,2,Mossback,scrimmage,2,4,69,Doubles,dropback pass,8,completion,moved the chains',
        'pond-1,3,Mossback,scrimmage,1,10,61,unknown,play pass,0,incompletion,',
        'pond-1,4,Mossback,scrimmage,2,10,61,,handoff,2,rushing attempt,',
      ].join('\r\n'),
    );
    expect({ status, body }).toMatchObject({ status: 201, body: { created: {}, charts: [{ created: false }] } });
  });

  it('refuses a chart of the same name with other plays', async () => {
    await records(SMALL_LEAGUE);
    const { status, body } = await records(jsonLines([aPlayRecord({ down: 1 })]));
    expect({ status, body }).toMatchObject({
      status: 422,
      body: { code: 'import.refused', errors: [{ row: 1, field: 'chart', found: 'main' }] },
    });
  });

  it('answers 409 when what the file once brought in was edited since', async () => {
    await records(SMALL_LEAGUE);
    await api.database.owner.query('update chart set revision = 2 where clan_id = $1', [clan.id]);
    const { status, body } = await records(SMALL_LEAGUE);
    expect({ status, body }).toMatchObject({ status: 409, body: { code: 'import.changed_since' } });
  });

  it('keeps a break of continuity as charted and says what was expected', async () => {
    const { status, body } = await records(
      SMALL_LEAGUE.replace(
        '"order":4,"offense":"Mossback","playType":"scrimmage","down":2',
        '"order":4,"offense":"Mossback","playType":"scrimmage","down":3',
      ),
    );
    expect({ status, body }).toMatchObject({
      status: 201,
      body: {
        totalContinuityBreaks: 1,
        continuityBreaks: [{ game: 'pond-1', chart: 'main', order: 4, field: 'down', found: '3', expected: '2' }],
      },
    });
    const { rows } = await api.database.owner.query('select down from play where clan_id = $1 and order_in_game = 4', [
      clan.id,
    ]);
    expect(rows).toEqual([{ down: 3 }]);
  });

  it('takes one chart of one game, with what of the film it covers', async () => {
    await records(jsonLines([...TWO_PLAYERS, aGameRecord()]));
    const { body: games } = await api.as(clan).get('/v1/games');
    const path = `/v1/games/${games.items[0].id}/charts?chart=third-downs&downs=3&chartedBy=Wick`;
    const { status, body } = await sheet(
      'order,offense,playType,down,distance\n7,heron,scrimmage,3,8\n12,heron,scrimmage,3,2\n',
      path,
    );
    expect({ status, body }).toMatchObject({
      status: 201,
      body: { charts: [{ game: 'pond-1', chart: 'third-downs', plays: 2 }], totalContinuityBreaks: 0 },
    });
    const { body: after } = await api.as(clan).get('/v1/games');
    expect(after.items[0].charts).toMatchObject([
      { reference: 'third-downs', chartedBy: 'Wick', filmScope: { downs: [3], offense: null } },
    ]);
  });

  it('writes packed copies that hold exactly what the rows hold', async () => {
    await records(
      jsonLines([
        ...TWO_PLAYERS,
        aGameRecord(),
        aPlayRecord({
          order: 1,
          clockSeconds: '3:20',
          alignmentAdjustments: ['press', 'mug'],
          yardsGained: -7,
          snapSecond: '1:02:03',
        }),
        aPlayRecord({
          order: 2,
          offense: 'heron',
          playFake: true,
          alignmentAdjustments: [],
          adjustments: [{ term: 'hard count', secondsLeft: 4 }],
        }),
        aPlayRecord({ order: 9, note: 'tab\there, back\\slash, "quote"\nand a line' }),
      ]),
    );
    const { rows: packs } = await api.database.owner.query<{ bytes: Buffer }>(
      'select bytes from chart_pack where clan_id = $1',
      [clan.id],
    );
    const plays = unpackPlays(packs[0]?.bytes ?? Buffer.alloc(0), { chartId: '', gameId: '' });
    const { rows } = await api.database.owner.query<Record<string, unknown>>(
      'select p.*, g.home_player_id from play p join game g on g.clan_id = p.clan_id and g.id = p.game_id where p.clan_id = $1 order by play_number',
      [clan.id],
    );
    expect(rows.map((row) => PLAY_FIELDS.map((field) => row[columnName(field.name)]))).toEqual(
      rows.map((_, play) => PLAY_FIELDS.map((field) => storedValue(field, plays.columns.get(field.name), play))),
    );
    expect(
      rows.map((row) => [row['play_number'], row['order_in_game'], row['offense_player_id'] === row['home_player_id']]),
    ).toEqual(
      rows.map((_, play) => [plays.playNumber[play], plays.orderInGame[play], plays.offenseIsHome[play] === 1]),
    );
    expect(rows[2]?.['note']).toBe('tab\there, back\\slash, "quote"\nand a line');
  });
});

/** A packed value as table `play` spells it. */
function storedValue(
  field: (typeof PLAY_FIELDS)[number],
  column: Column | undefined,
  play: number,
): PlayValue | string | number[] {
  if (column === undefined) return null;
  if ('values' in column) return column.values[play] === -32_768 ? null : (column.values[play] ?? null);
  if ('starts' in column) {
    if (column.known[play] === 0) return null;
    return Array.from(
      column.codes.subarray(column.starts[play], column.starts[play + 1]),
      (code) => column.meanings[code] ?? -1,
    );
  }
  const code = column.codes[play] ?? -1;
  if (code < 0) return null;
  const meaning = column.meanings[code] ?? -1;
  return field.type === 'choice' ? (field.choices[meaning] ?? '') : meaning;
}

const NEAR_TRIPS = 'a term of kind formation; nearest: three by one; all: /v1/terms?kind=formation';

describe('a bad file', () => {
  const refused = async (body: string | Buffer, expected: object, contentType = 'application/x-ndjson') => {
    const response = await api.as(clan).post('/v1/imports').set('Content-Type', contentType).send(body);
    expect(response.headers['content-type']).toMatch(/^application\/problem\+json/);
    expect({ status: response.status, body: response.body }).toMatchObject(expected);
    expect(JSON.stringify(response.body)).not.toMatch(/\bat .*\.(ts|js)|node_modules|select |insert /i);
    for (const table of ['player', 'event', 'game', 'chart', 'play']) expect(await count(table)).toBe(0);
    expect((await api.anonymous.get('/health/ready')).status).toBe(200);
  };

  it('with a wrong header is told which columns there are', () =>
    refused(
      'game,order,offense,playType,distence,Dist,weather,zzz\n',
      {
        status: 422,
        body: {
          code: 'import.refused',
          detail: expect.stringContaining('/v1/sheet-mappings/suggestions'),
          errors: [
            { row: 1, field: 'distence', expected: 'did you mean distance?' },
            { row: 1, field: 'Dist', expected: 'distance, if that is what it says' },
            { row: 1, field: 'weather', expected: expect.stringContaining('down, distance') },
            { row: 1, field: 'zzz', expected: 'one of the names that are expected for weather' },
          ],
        },
      },
      'text/csv',
    ));

  it('without a required column is told so', () =>
    refused('game,order,offense\n', { status: 422, body: { errors: [{ row: 1, field: 'playType' }] } }, 'text/csv'));

  it.each([
    ['semicolons', 'game;order;offense;playType\npond-1;1;heron;scrimmage\n'],
    ['semicolons', '"game";"order";"offense";"playType"\n"pond-1";1;"heron";"scrimmage"\n'],
    ['semicolons', 'game;order;offense;playType;note\npond-1;1;heron;scrimmage;"late, and short"\n'],
    ['tabs', 'game\torder\toffense\tplayType\npond-1\t1\theron\tscrimmage\n'],
  ])('with %s between its cells is told that these are to be commas', (marks, body) =>
    refused(
      body,
      {
        status: 400,
        body: {
          code: 'import.unreadable',
          errors: [
            {
              row: 1,
              field: '',
              found: `what seem to be cells with ${marks} between them`,
              expected: 'commas, as RFC 4180 says',
            },
          ],
        },
      },
      'text/csv',
    ),
  );

  it('that is half written ends nowhere', () =>
    refused(
      'game,order,offense,playType,note\npond-1,1,heron,scrimmage,"never clo',
      {
        status: 400,
        body: {
          code: 'import.unreadable',
          detail: expect.stringContaining('read no further'),
          errors: [{ row: 2, found: 'a quoted cell that is never closed' }],
        },
      },
      'text/csv',
    ));

  it('that is half written as JSON Lines ends nowhere', () =>
    refused(SMALL_LEAGUE.slice(0, -20), { status: 400, body: { code: 'import.unreadable', errors: [{ row: 11 }] } }));

  it('with rows of another width is told how many cells they have, and of every other mistake', async () => {
    await records(jsonLines([...TWO_PLAYERS, aGameRecord()]));
    const rows = [
      'game,order,offense,playType,down',
      'pond-1,1,heron,scrimmage,5',
      'pond-1,2,heron',
      'pond-1,3,heron,scrimmage,1,,',
      'pond-1',
      'pond-1,4,heron,scrimmage,0',
    ];
    for (const path of ['/v1/imports?mode=check', '/v1/imports']) {
      const { status, body } = await sheet(rows.join('\n'), path);
      expect({ status, body }).toMatchObject({
        status: 422,
        body: {
          code: 'import.refused',
          totalErrors: 5,
          errors: [
            { row: 2, field: 'down', found: '5' },
            { row: 3, field: '', found: '3 cells', expected: '5, as the header has' },
            { row: 4, field: '', found: '7 cells', expected: '5, as the header has' },
            { row: 5, field: '', found: '1 cell', expected: '5, as the header has' },
            { row: 6, field: 'down', found: '0' },
          ],
        },
      });
    }
    expect(await count('chart')).toBe(0);
    expect(await count('play')).toBe(0);
  });

  it('with NUL bytes is told where', () =>
    refused(SMALL_LEAGUE.replace('Mossback', 'Moss\0back'), {
      status: 400,
      body: { errors: [{ row: 2, found: 'a NUL byte' }] },
    }));

  it('in another encoding is told so', () =>
    refused(Buffer.from('{"record":"player","handle":"H\xe9ron"}\n', 'latin1'), {
      status: 400,
      body: { code: 'import.unreadable', errors: [{ expected: 'text in UTF-8' }] },
    }));

  it('larger than allowed is refused before it is read', () =>
    refused('x'.repeat(1_000_001), { status: 413, body: { code: 'request.too_large' } }));

  it('that is a bomb of brackets is refused by its length', () =>
    refused('['.repeat(500_000), { status: 400, body: { code: 'import.unreadable', errors: [{ row: 1 }] } }));

  it('that is deep but short is not an object', () =>
    refused(`${'['.repeat(20_000)}${']'.repeat(20_000)}`, { status: 400, body: { code: 'import.unreadable' } }));

  it('that is empty is told what was expected', () =>
    refused('', { status: 400, body: { code: 'import.unreadable', errors: [{ row: 1, found: 'an empty file' }] } }));

  it.each([
    ['text/csv', 'game,order,offense,playType\n', 2],
    ['application/x-ndjson', '\n\n', 1],
  ])('of type %s without rows is told so, checked or not', async (type, body, row) => {
    await records(jsonLines([...TWO_PLAYERS, aGameRecord()]));
    const { body: games } = await api.as(clan).get('/v1/games');
    const game = games.items[0].id;
    for (const path of ['/v1/imports', '/v1/imports?mode=check', `/v1/games/${game}/charts`]) {
      // At the address of a game the sheet has no column of games.
      const sent = path.startsWith('/v1/games') ? body.replace('game,', '') : body;
      expect(await api.as(clan).post(path).set('Content-Type', type).send(sent)).toMatchObject({
        status: 422,
        body: { code: 'import.refused', totalErrors: 1, errors: [{ row, field: '', found: 'no rows' }] },
      });
    }
  });

  it.each([
    ['a sheet', 'game,order,offense,playType\npond-1,1,heron,scrimmage\n'],
    ['JSON', '{"record":"player","handle":"Heron"}'],
    ['JSON that is longer than other bodies may be', JSON.stringify({ handle: 'x'.repeat(300_000) })],
  ])('of type application/json is told which are taken, be it %s', async (_what, body) => {
    for (const path of ['/v1/imports', '/v1/imports/?mode=check', `/v1/games/${randomUUID()}/charts?chart=main`]) {
      expect(await api.as(clan).post(path).set('Content-Type', 'application/json').send(body)).toMatchObject({
        status: 415,
        body: { code: 'request.unsupported_type', errors: [{ field: 'Content-Type', found: 'application/json' }] },
      });
    }
  });

  it('of another type is told which are taken', () =>
    refused(
      '<plays/>',
      { status: 415, body: { code: 'request.unsupported_type', errors: [{ field: 'Content-Type' }] } },
      'application/xml',
    ));

  it('with a play before its game says which game', () =>
    refused(jsonLines([...TWO_PLAYERS, aPlayRecord(), aGameRecord()]), {
      status: 422,
      body: { totalErrors: 1, errors: [{ row: 7, field: 'game', found: 'pond-1' }] },
    }));

  it('with impossible values lists row, field, found and expected', () =>
    refused(
      jsonLines([
        ...TWO_PLAYERS,
        aGameRecord(),
        aPlayRecord({ order: 1, down: 5 }),
        aPlayRecord({ order: 2, formation: 'tirps' }),
        aPlayRecord({ order: 3, coverage: 'cover 7' }),
        aPlayRecord({ order: 4, yardsToGoal: 3, distance: 10 }),
        aPlayRecord({ order: 5, offense: 'Nobody' }),
        aPlayRecord({ order: 5, offense: 'heron' }),
        aPlayRecord({ order: 6, playType: 'kickoff', down: 1 }),
        aPlayRecord({ order: 7, colour: 'red' }),
        aPlayRecord({ order: 8, playType: undefined }),
        aPlayRecord({ order: 9, formation: 'wigglebunch' }),
        { record: 'menuCall', side: 'offense', name: 'gull', formation: 'tirps' },
      ]),
      {
        status: 422,
        body: {
          code: 'import.refused',
          totalErrors: 11,
          errors: [
            { row: 8, field: 'down', found: '5', expected: 'a whole number from 1 to 4' },
            { row: 9, field: 'formation', found: 'tirps', expected: NEAR_TRIPS },
            { row: 10, field: 'coverage', found: 'cover 7', expected: expect.stringContaining('one meaning') },
            { row: 11, field: 'distance', found: '10', expected: 'at most the 3 yards to the goal line' },
            { row: 12, field: 'offense', found: 'Nobody', expected: 'one of the two players of the game' },
            { row: 13, field: 'order', found: '5', expected: 'more than 5, the order of the row before' },
            { row: 14, field: 'down', found: '1', expected: 'empty on a kickoff' },
            { row: 15, field: 'colour', found: 'red' },
            { row: 16, field: 'playType', expected: expect.stringContaining('scrimmage') },
            {
              row: 17,
              field: 'formation',
              found: 'wigglebunch',
              expected: 'a term of kind formation; all: /v1/terms?kind=formation',
            },
            { row: 18, field: 'formation', found: 'tirps', expected: NEAR_TRIPS },
          ],
        },
      },
    ));

  it('with more mistakes than anyone reads lists the first and counts all', () =>
    refused(
      jsonLines([
        ...TWO_PLAYERS,
        aGameRecord(),
        ...Array.from({ length: 500 }, (_, at) => aPlayRecord({ order: at + 1, down: 9 })),
      ]),
      {
        status: 422,
        body: { totalErrors: 500, errors: { length: 200 } },
      },
    ));

  it('with a wrong record says what is wrong with it', () =>
    refused(
      jsonLines([
        { record: 'player', colour: 'red' },
        { record: 'event', reference: 'Not A Slug', name: 'x', status: 'someday' },
        { record: 'coach', name: 'x' },
        { ...aGameRecord({ event: undefined }), home: 'Nobody' },
      ]),
      {
        status: 422,
        body: {
          errors: expect.arrayContaining([
            expect.objectContaining({ row: 1, field: 'handle' }),
            expect.objectContaining({ row: 1, field: 'colour', expected: 'is no property here' }),
            expect.objectContaining({ row: 2, field: 'reference', expected: expect.stringContaining('dashes') }),
            expect.objectContaining({ row: 2, field: 'status' }),
            expect.objectContaining({ row: 3, field: 'record', found: 'coach' }),
            expect.objectContaining({ row: 4, field: 'home', found: 'Nobody' }),
          ]),
        },
      },
    ));
});

describe('a clan that has reached its quota', () => {
  it('imports nothing of a file that goes beyond it', async () => {
    const small = await startTestApi({ clanPlaysMost: 3 });
    const owner = await aClan(small.database.owner);
    const { status, body } = await small
      .as(owner)
      .post('/v1/imports')
      .set('Content-Type', 'application/x-ndjson')
      .send(SMALL_LEAGUE);
    expect({ status, code: body.code }).toEqual({ status: expect.any(Number), code: 'clan.quota_reached' });
    const { rows } = await small.database.owner.query('select from player');
    expect(rows).toEqual([]);
    await small.close();
  });
});

describe('the door', () => {
  it('tells a key that may only read that it may not import', async () => {
    const reader = await aClan(api.database.owner, { rights: ['read'] });
    const { status, body } = await api
      .as(reader)
      .post('/v1/imports')
      .set('Content-Type', 'application/x-ndjson')
      .send(SMALL_LEAGUE);
    expect({ status, code: body.code }).toEqual({ status: 403, code: 'access.right_missing' });
  });

  it.each([
    ['no key', undefined, 'access.key_missing'],
    ['something that is no key', 'Bearer hello', 'access.key_refused'],
    ['a key that nobody has', `Bearer rbk_${'A'.repeat(43)}`, 'access.key_refused'],
  ])('stays shut for %s', async (_what, header, code) => {
    const request = api.anonymous.post('/v1/imports').set('Content-Type', 'text/csv');
    const { status, body, headers } = await (
      header === undefined ? request : request.set('Authorization', header)
    ).send('x');
    expect({ status, body }).toMatchObject({ status: 401, body: { code } });
    expect(headers['www-authenticate']).toMatch(/^Bearer/);
  });

  it("answers 404 for another clan's game, and 400 for an id that is no UUID", async () => {
    await records(jsonLines([...TWO_PLAYERS, aGameRecord()]));
    const { body } = await api.as(clan).get('/v1/games');
    const other = await aClan(api.database.owner);
    const send = (id: string) =>
      api
        .as(other)
        .post(`/v1/games/${id}/charts`)
        .set('Content-Type', 'text/csv')
        .send('order,offense,playType\n1,heron,scrimmage\n');
    expect(await send(body.items[0].id)).toMatchObject({ status: 404, body: { code: 'resource.not_found' } });
    expect(await send('42')).toMatchObject({
      status: 400,
      body: { code: 'request.invalid', errors: [{ field: 'gameId', found: '42' }] },
    });
  });

  it('refuses a query that it does not know', async () => {
    const { status, body } = await records(SMALL_LEAGUE, '/v1/imports?mode=maybe&dry=1');
    expect({ status, body }).toMatchObject({ status: 400, body: { code: 'request.invalid' } });
    expect(body).toMatchObject({
      errors: expect.arrayContaining([
        expect.objectContaining({ field: 'dry' }),
        expect.objectContaining({ field: 'mode' }),
      ]),
    });
  });
});
