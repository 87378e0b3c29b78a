import { openApiDocument } from '#api/documents.js';
import { startDemoApi, type DemoApi } from '../support/demo-api.js';
import { handOf, type Hand } from '../support/http.js';
import type { TestApi } from '../support/test-api.js';

/** What reads must be told beyond the rows in their address. */
const QUERIES: Readonly<Record<string, string>> = {
  '/v1/answers': 'playerId={opponentId}',
  '/v1/call-mix': 'playerId={opponentId}',
  '/v1/call-sheets': 'eventId={eventId}&playerId={playerId}&opponentId={opponentId}',
  '/v1/call-studies': 'concept=counter read',
  '/v1/events/{eventId}/charting-queue': 'player={playerId}',
  '/v1/events/{eventId}/meeting-odds': 'player={playerId}',
  '/v1/events/{eventId}/next-opponents': 'player={playerId}',
  '/v1/players/{playerId}/fourth-down':
    'opponentId={opponentId}&eventId={eventId}&distance=2&yardsToGoal=38&clockSeconds=190',
  '/v1/players/{playerId}/late-game': 'opponentId={opponentId}&eventId={eventId}&clockSeconds=110&scoreDifference=-2',
  '/v1/trends': 'all=true',
};

/** Tells when each key was used last, so asking is what changes it. */
const CHANGED_BY_READING = '/v1/keys';

let demo: DemoApi;
let our: Hand;
/** Everything that a client may ask for again with a tag, as far as the demo league has the rows in its address. */
let addresses: readonly string[];

beforeAll(async () => {
  demo = await startDemoApi();
  our = handOf(demo.api, demo.clan);
  const [playerId, opponentId] = [await demo.idOf('player', 'OxbowFold'), await demo.idOf('player', 'GraniteMuffin')];
  const { body: report } = await our.get(`/v1/round-reports/${demo.reportId}`);
  const { body: games } = await our.get(`/v1/games?playerId=${opponentId}`);
  const gameId = String(games.items[0].id);
  const { body: charts } = await our.get(`/v1/charts?gameId=${gameId}`);
  const known = { playerId, opponentId, gameId, eventId: String(report.eventId), chartId: String(charts.items[0].id) };
  const ids = new Map(Object.entries(known));
  const filled = (text: string): string => text.replace(/\{(\w+)\}/g, (name, id: string) => ids.get(id) ?? name);
  // The player who is asked about is the one whose film there is most of.
  ids.set('playerId', opponentId);
  addresses = Object.entries(openApiDocument(demo.api.app).paths)
    .filter(([path, item]) => path !== CHANGED_BY_READING && item.get?.responses['304'] !== undefined)
    .map(([path]) => {
      ids.set('playerId', path.startsWith('/v1/players') ? opponentId : playerId);
      return filled(`${path}?${QUERIES[path] ?? ''}`);
    })
    .filter((address) => !address.includes('{'));
});
afterAll(() => demo.close());

interface Held {
  readonly tag: string;
  readonly text: string;
}

async function readAll(api: TestApi): Promise<Map<string, Held>> {
  const held = new Map<string, Held>();
  for (const address of addresses) {
    const { status, headers, text } = await api.as(demo.clan).get(address);
    expect({ address, status }).toEqual({ address, status: 200 });
    held.set(address, { tag: headers['etag'] ?? '', text });
  }
  return held;
}

/** Addresses at which a client with what it held is shown other than what a service that has kept nothing answers. */
async function staleAfter(change: () => Promise<void>): Promise<string[]> {
  const held = await readAll(demo.api);
  await change();
  const fresh = await demo.api.again({});
  const stale: string[] = [];
  for (const [address, { text }] of await readAll(fresh)) {
    const before = held.get(address);
    const again = await our.get(address).set('If-None-Match', before?.tag ?? '');
    if ((again.status === 304 ? before?.text : again.text) !== text) stale.push(address);
  }
  await fresh.app.close();
  return stale;
}

async function own(kind: 'players' | 'events' | 'games'): Promise<Readonly<Record<string, string>>[]> {
  const { body } = await our.get(`/v1/${kind}?limit=200`);
  return (body.items as (Readonly<Record<string, string>> & { own: boolean })[]).filter((item) => item.own);
}

async function changeAll(kind: 'players' | 'events' | 'games', changed: (row: number) => object): Promise<void> {
  for (const [row, { id }] of (await own(kind)).entries()) {
    expect(await our.patch(`/v1/${kind}/${id ?? ''}`, changed(row))).toMatchObject({ status: 200 });
  }
}

describe('what a client holds is not called current', () => {
  it('when players have other names', async () => {
    expect(addresses.length).toBeGreaterThan(30);
    expect(await staleAfter(() => changeAll('players', (row) => ({ handle: `Renamed ${row}` })))).toEqual([]);
  });

  it('when events have other names and days', async () => {
    const change = (row: number): object => ({ name: `Renamed Cup ${row}`, startsOn: `2025-01-0${row + 1}` });
    expect(await staleAfter(() => changeAll('events', change))).toEqual([]);
  });

  it('when games have other days and videos', async () => {
    const video = { kind: 'neutral', url: 'https://film.example/other', offsetSeconds: 77 };
    const change = (row: number): object => ({ playedAt: `2025-02-${10 + (row % 9)}T12:00:00Z`, videos: [video] });
    expect(await staleAfter(() => changeAll('games', change))).toEqual([]);
  });
});
