import { aClan, type TestClan } from '../support/factories.js';
import { aGameRecord, TWO_PLAYERS } from '../support/small-league.js';
import { jsonLines, startTestApi, type TestApi } from '../support/test-api.js';

let api: TestApi;
let clan: TestClan;
let written: string[];

beforeAll(async () => {
  written = [];
  const keep = (chunk: string | Uint8Array): boolean => {
    written.push(String(chunk));
    return true;
  };
  jest.spyOn(process.stdout, 'write').mockImplementation(keep);
  jest.spyOn(process.stderr, 'write').mockImplementation(keep);
  api = await startTestApi({ logLevel: 'debug' });
  clan = await aClan(api.database.owner, { name: 'Wetland Nine' });
});
afterAll(async () => {
  await api.close();
  jest.restoreAllMocks();
});
beforeEach(() => {
  written = [];
});

interface Line {
  readonly level: string;
  readonly context: string;
  readonly message: Readonly<Record<string, unknown>>;
}

/** What was logged so far; a line that is no JSON fails the test. */
function lines(): Line[] {
  const text = written.join('').split('\n');
  return text.filter((line) => line !== '').map((line) => JSON.parse(line) as Line);
}

/** The line of a request is written once its connection is done with it, which may be after the client has its answer. */
async function linesOf(requestId: string | undefined): Promise<Line[]> {
  const found = (): Line[] => lines().filter(({ message }) => message['requestId'] === requestId);
  while (!found().some(({ context }) => context === 'Request')) await new Promise(setImmediate);
  return found();
}

const id = (headers: Readonly<Record<string, string>>): string | undefined => headers['x-request-id'];

describe('the log', () => {
  it('has one line of JSON a request, under the id that the client was told', async () => {
    const { headers, status } = await api.as(clan).get('/v1/players?name=Brass');
    expect(status).toBe(200);
    expect(await linesOf(id(headers))).toMatchObject([
      {
        level: 'log',
        context: 'Request',
        message: { method: 'GET', route: '/v1/players', status: 200, aborted: false, elapsedMs: expect.any(Number) },
      },
    ]);
  });

  it('names nobody: no key, name, id, address, query or body, whether it went well or not', async () => {
    const asked: { headers: Record<string, string>; status: number }[] = [];
    const unknown = aGameRecord({ reference: 'pond-2', home: 'Sedge Warden' });
    const ndjson = (body: string) =>
      api.as(clan).post('/v1/imports').set('Content-Type', 'application/x-ndjson').send(body);
    asked.push(await ndjson(jsonLines([...TWO_PLAYERS, aGameRecord()])));
    asked.push(await ndjson(jsonLines([unknown])));
    const made = await api.as(clan).post('/v1/players').send({ handle: 'Sedge Warden' });
    const player = String((made.body as { id: unknown }).id);
    asked.push(made);
    asked.push(await api.as(clan).post('/v1/players').send({ handle: 'Sedge Warden' }));
    asked.push(await api.as(clan).post('/v1/players').send({ handle: 'Sedge Warden', mail: 'sedge@wetland.example' }));
    asked.push(await api.as(clan).get(`/v1/players/${player}`));
    asked.push(await api.as(clan).get('/v1/players?name=Sedge%20Warden'));
    asked.push(await api.as(clan).get('/v1/Sedge%20Warden'));
    asked.push(await api.as({ key: `rbk_${'x'.repeat(43)}` }).get(`/v1/players/${player}`));
    asked.push(await api.anonymous.get('/v1/players').set('User-Agent', 'sedge-bot/1'));
    expect(asked.map(({ status }) => status)).toEqual([201, 422, 201, 409, 400, 200, 200, 404, 401, 401]);
    for (const { headers } of asked) expect(await linesOf(id(headers))).toHaveLength(1);
    const text = written.join('');
    for (const secret of [
      ...[clan.key, clan.key.slice(4, 20), 'x'.repeat(20), clan.id, clan.keyId, clan.name, player],
      ...['Sedge', 'sedge', 'Brass', 'Mossback', 'pond', 'video.example', '127.0.0.1', '::1'],
    ]) {
      expect(text).not.toContain(secret);
    }
  });

  it('says what failed inside under the same id, which the client is not told', async () => {
    const { owner } = api.database;
    await owner.query('alter table player rename column handle to handle_elsewhere');
    try {
      const { headers, status, body } = await api.as(clan).get('/v1/players?name=Sedge%20Warden');
      expect({ status, body }).toMatchObject({ status: 500, body: { code: 'server.unexpected' } });
      expect(JSON.stringify(body)).not.toContain('handle');
      const [failure, request] = await linesOf(id(headers));
      expect(failure).toMatchObject({
        level: 'error',
        context: 'ProblemFilter',
        message: { error: expect.stringContaining('handle') },
      });
      expect(request).toMatchObject({ message: { status: 500 } });
      expect(written.join('')).not.toContain('Sedge');
    } finally {
      await owner.query('alter table player rename column handle_elsewhere to handle');
    }
  });
});
