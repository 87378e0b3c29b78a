import { aClan, aMember, type TestClan } from '../support/factories.js';
import { handOf, type Hand } from '../support/http.js';
import { CHEAP_PASSPHRASES, signedIn, type Person } from '../support/person.js';
import { aGameRecord, aPlayRecord, TWO_PLAYERS } from '../support/small-league.js';
import { loadRecords } from '../support/load-records.js';
import { startTestApi, type TestApi } from '../support/test-api.js';

const HOSTILE = 'Press early. <img src=x onerror=alert(1)> [x](javascript:alert(1))';
const MINE = 'For me alone: I blitz him on third down.';

let api: TestApi;
let clan: TestClan;
let our: Hand;
let eventId: string;
let opponentId: string;
let chartId: string;
let marlow: Person;
let marlowId: string;
let sorrel: Person;

beforeAll(async () => {
  api = await startTestApi({ passphrase: CHEAP_PASSPHRASES });
});
afterAll(() => api.close());

beforeEach(async () => {
  clan = await aClan(api.database.owner);
  our = handOf(api, clan);
  const plays = Array.from({ length: 12 }, (_, at) =>
    aPlayRecord({
      ...{ order: at + 1, down: 1, distance: 10, yardsToGoal: 60, snapSecond: 30 * (at + 1) },
      ...{ callFamily: 'run', concept: 'counter read', snapResult: 'rushed', yardsGained: 5 },
    }),
  );
  await loadRecords(api, clan, [...TWO_PLAYERS, aGameRecord(), ...plays]);
  eventId = String((await our.get('/v1/events')).body.items[0].id);
  const game = (await our.get('/v1/games')).body.items[0];
  opponentId = String(game.awayPlayerId);
  chartId = String((await our.get('/v1/charts')).body.items[0].id);
  const member = await aMember(api.database.owner, clan.id, 'analyst');
  marlow = await signedIn(api, member);
  sorrel = await signedIn(api, await aMember(api.database.owner, clan.id, 'owner'));
  const { items } = (await sorrel.get('/v1/members')).body as { items: { id: string; role: string }[] };
  marlowId = items.find(({ role }) => role === 'analyst')?.id ?? '';
});

const POINTS = () => [
  { about: 'opponent', playerId: opponentId, text: HOSTILE },
  { about: 'opponent', playerId: opponentId, text: MINE, visibleTo: 'me' },
  { about: 'call', concept: 'counter read', text: 'The guard pulls early.' },
  { about: 'play', chartId, playNumber: 2, text: 'Watch the end here.' },
  { about: 'call', concept: 'mesh', text: 'Not of this opponent.' },
];

async function written(): Promise<string[]> {
  const ids: string[] = [];
  for (const point of POINTS()) {
    const made = await marlow.post('/v1/coaching-points', point);
    expect(made.status).toBe(201);
    ids.push(String(made.body.id));
  }
  return ids;
}

interface Said {
  readonly on: string;
  readonly text: string | null;
  readonly writtenBy: string | null;
  readonly revision: number;
}

async function marlowsName(): Promise<string> {
  const { items } = (await sorrel.get('/v1/members')).body as { items: { id: string; name: string }[] };
  return items.find(({ id }) => id === marlowId)?.name ?? '';
}

/** The points of a report as a member of the clan reads them. */
async function pointsIn(at: string): Promise<Said[]> {
  return ((await sorrel.get(at)).body as { coachingPoints: Said[] }).coachingPoints;
}

/** Made by the very person whose point is for that person alone. */
async function reported(): Promise<string> {
  const made = await marlow.post('/v1/round-reports', { eventId, opponentId });
  expect(made.status).toBe(201);
  return `/v1/round-reports/${String(made.body.id)}`;
}
const read = (person: Person, at: string, type: string) => person.raw('get', at).set('Accept', type);

describe('coaching points in a round report', () => {
  it('stand where they belong, signed, and escaped in every form', async () => {
    await written();
    const at = await reported();
    const points = await pointsIn(at);
    const said = points.map(({ on, text, revision }) => ({ on, text, revision }));
    expect(said).toHaveLength(3);
    expect(said).toEqual(
      expect.arrayContaining([
        { on: 'opponent', text: HOSTILE, revision: 1 },
        { on: 'call', text: 'The guard pulls early.', revision: 1 },
        { on: 'play', text: 'Watch the end here.', revision: 1 },
      ]),
    );
    expect(new Set(points.map(({ writtenBy }) => writtenBy))).toEqual(new Set([await marlowsName()]));
    const page = await read(sorrel, at, 'text/html');
    expect(page.text).toContain('&lt;img src=x onerror=alert(1)&gt;');
    expect(page.text).not.toContain('<img');
    expect(page.text).toContain('Our coaching points');
    const markdown = await read(sorrel, at, 'text/markdown');
    expect(markdown.text).toContain('The guard pulls early.');
    expect(markdown.text).not.toMatch(/[^\\]\]\(javascript/);
    expect((await read(sorrel, at, 'text/plain')).text).toContain('Watch the end here.');
  });

  it('never freeze what is for one person alone, nor any text or name', async () => {
    await written();
    await reported();
    const { rows } = await api.database.owner.query<{ body: string }>(
      `select body::text as body from round_report where clan_id = $1`,
      [clan.id],
    );
    expect(rows).toHaveLength(1);
    for (const text of [MINE, HOSTILE, 'pulls early', 'Watch the end']) expect(rows[0]?.body).not.toContain(text);
    expect(rows[0]?.body).toContain('"coachingPoints"');
  });

  it('say what they said when the report was made, and nothing once they are gone', async () => {
    const [onOpponent = ''] = await written();
    const at = await reported();
    const point = `/v1/coaching-points/${onOpponent}`;
    expect((await marlow.patch(point, { text: 'Press late.' })).status).toBe(200);
    const textIn = async (): Promise<unknown> => (await pointsIn(at)).find(({ on }) => on === 'opponent');
    expect(await textIn()).toMatchObject({ text: HOSTILE, revision: 1 });
    expect((await marlow.delete(point)).status).toBe(204);
    expect(await textIn()).toMatchObject({ pointId: onOpponent, text: null, writtenBy: null });
    expect((await read(sorrel, at, 'text/plain')).text).not.toContain('Press');
  });

  it('name nobody who has left the clan', async () => {
    await written();
    const at = await reported();
    expect((await sorrel.delete(`/v1/members/${marlowId}`)).status).toBe(204);
    const points = await pointsIn(at);
    expect(points.map(({ writtenBy }) => writtenBy)).toEqual(Array.from({ length: 3 }, () => 'former member'));
  });

  it('go through no link, in no form', async () => {
    await written();
    const at = await reported();
    const made = await our.post(`${at}/share-links`, {});
    expect(made.status).toBe(201);
    const path = new URL(String(made.body.link)).pathname;
    for (const type of ['application/json', 'text/markdown', 'text/plain', 'text/html', 'text/csv']) {
      const { status, text } = await api.anonymous.get(path).set('Accept', type);
      expect(status).toBe(200);
      for (const told of ['Press early', 'pulls early', 'Watch the end', 'coachingPoints', 'Our coaching points']) {
        expect(text).not.toContain(told);
      }
    }
  });
});
