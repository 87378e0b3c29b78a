import { randomBytes } from 'node:crypto';
import type { Pool } from 'pg';
import { uuidv7 } from 'uuidv7';
import { SERVICE_POOL } from '#api/database/clan-transaction.js';
import { countQueries, type QueryCount } from '../support/count-queries.js';
import { aChart, aClan, aGame, aMember, anEvent, aPlay, aPlayer, insert } from '../support/factories.js';
import { handOf, type Hand } from '../support/http.js';
import { operationsOf, type Operation } from '../support/operations.js';
import { signedIn, type Person } from '../support/person.js';
import { startTestApi, type TestApi } from '../support/test-api.js';

/** More of everything than one, so that a query for each row would show. */
const MANY = 20;
/** More than any read has needed; a read of many kinds of rows asks once for each kind. */
const MOST_QUERIES = 24;

/** As many as a clan may have. */
const MOST_WEBHOOKS = 10;
/** Of an open match three candidates are told, so both archives have as many. */
const FEWEST_OPPONENTS = 4;

/** Rows by the names that the addresses of the API give them, and who reads them. */
interface Archive {
  readonly our: Hand;
  readonly person: Person;
  readonly rows: Readonly<Record<string, string>>;
}

let api: TestApi;
let queries: QueryCount;
let few: Archive;
let many: Archive;

beforeAll(async () => {
  api = await startTestApi();
  queries = countQueries(api.app.get<Pool>(SERVICE_POOL));
  few = await archiveOf(1);
  many = await archiveOf(MANY);
});
afterAll(() => api.close());

/** An archive with that many rows in every list. */
async function archiveOf(rows: number): Promise<Archive> {
  const { owner } = api.database;
  const clan = await aClan(owner);
  const our = handOf(api, clan);
  const own = { clan_id: clan.id, scope_id: clan.privateScopeId };
  const member = await aMember(owner, clan.id, 'owner');
  const person = await signedIn(api, member);
  const game = await aGame(owner, clan);
  const chart = await aChart(owner, clan, { game });
  const second = await our.made('/v1/charts', { gameId: game.id, reference: 'second' });
  for (const id of [chart.id, second.id]) await our.made(`/v1/charts/${id}/plays`, PLAY);
  const { id: menuCall } = await our.made('/v1/menu-calls', { side: 'offense', name: 'x', formation: 'trips' });
  const opponents = [game.awayPlayerId];
  for (let row = 1; row < Math.max(rows, FEWEST_OPPONENTS); row += 1) opponents.push(await aPlayer(owner, clan));
  const event = await our.made('/v1/events', { reference: 'cup', name: 'Pond Cup' });
  let last: Readonly<Record<string, string>> = {};
  for (const playerId of [game.homePlayerId, ...opponents]) {
    const entrant = await our.made(`/v1/events/${event.id}/entrants`, { playerId });
    last = { entrantId: entrant.id };
  }
  await our.post(`/v1/events/${event.id}/bracket`, { structure: 'single elimination' }).expect(201);
  for (const [index, opponentId] of opponents.slice(0, rows).entries()) {
    const row = index + 1;
    const alias = { alias: `a${row}`, normalised_alias: `a${row}` };
    await insert(owner, 'player_alias', { ...own, ...anId(row), player_id: game.homePlayerId, ...alias });
    await anEvent(owner, clan);
    const other = await aGame(owner, clan, { homePlayerId: game.homePlayerId, awayPlayerId: opponentId });
    const video = { kind: 'neutral', url: 'https://film.example/1' };
    await insert(owner, 'game_video', { ...own, ...anId(row), game_id: other.id, ...video });
    await our.made('/v1/charts', { gameId: other.id, reference: 'main' });
    await aPlay(owner, clan, { chart, row: { formation: 1, coverage: 200 } });
    await aMember(owner, clan.id, 'reader');
    last = {
      ...last,
      ...(await makeOneOfEach(our, row, { game: game.id, player: game.homePlayerId, opponentId, menuCall })),
    };
    const report = await our.made('/v1/round-reports', { eventId: event.id, opponentId: game.homePlayerId });
    last = { ...last, reportId: report.id };
  }
  for (let row = 1; row <= Math.min(rows, MOST_WEBHOOKS); row += 1) {
    // Turned off, so that nothing is sent.
    const webhook = await person.post('/v1/webhooks', { url: `https://bot.example/${row}`, enabled: false });
    last = { ...last, webhookId: String(webhook.body.id) };
  }
  for (let row = 1; row <= rows; row += 1) {
    const delivery = await person.post(`/v1/webhooks/${last['webhookId'] ?? ''}/deliveries`, {});
    last = { ...last, deliveryId: String(delivery.body.id) };
    const shared = await our.post(`/v1/round-reports/${last['reportId'] ?? ''}/share-links`, {});
    last = { ...last, linkId: String(shared.body.id), token: String(shared.body.link).split('/').at(-1) ?? '' };
    await our.patch(`/v1/coaching-points/${last['coachingPointId'] ?? ''}`, { text: `Look here, ${row}.` });
    await insert(owner, 'app.person_session', {
      ...{ id: uuidv7(), person_id: member.personId, token_hash: randomBytes(32), expires_at: '2999-01-01T00:00:00Z' },
    });
  }
  // The packed copy as it is after all that was written past the service.
  await our.patch(`/v1/charts/${chart.id}/plays/1`, { note: 'warm' });
  const { body } = await our.get(`/v1/events/${event.id}/matches`);
  return {
    our,
    person,
    rows: {
      ...last,
      ...{ eventId: event.id, matchId: String(body.items[0].id), memberId: member.memberId },
      ...{ playerId: game.homePlayerId, opponentId: game.awayPlayerId },
      ...{ gameId: game.id, chartId: chart.id, secondChartId: second.id, playNumber: '1' },
    },
  };
}

interface Known {
  readonly game: string;
  readonly player: string;
  readonly opponentId: string;
  readonly menuCall: string;
}

/** One row of everything that is made over HTTP, by the names of their ids. */
async function makeOneOfEach(our: Hand, row: number, known: Known): Promise<Readonly<Record<string, string>>> {
  const { game, player, opponentId, menuCall } = known;
  const ownCall = { gameId: game, orderInGame: row, side: 'offense', menuCallId: menuCall, concept: 'mesh' };
  const mapping = {
    ...{ name: `sheet ${row}`, headers: [`Ball ${row}`], columns: [{ header: `Ball ${row}`, to: 'offense' }] },
    constants: { playType: 'scrimmage', game: 'pond-1' },
  };
  const made: Readonly<Record<string, readonly [string, object]>> = {
    menuCallId: ['/v1/menu-calls', { side: 'offense', name: `m${row}`, formation: 'trips' }],
    ownCallId: ['/v1/own-calls', ownCall],
    coachingPointId: ['/v1/coaching-points', { about: 'call', concept: 'mesh', text: 'Look here.' }],
    termId: ['/v1/terms', { kind: 'formation', name: `Lantern ${row}`, synonyms: [`l${row}`] }],
    mappingId: ['/v1/sheet-mappings', mapping],
    overrideId: ['/v1/match-up-overrides', { playerId: player, opponentId, winProbability: 0.6 }],
    keyId: ['/v1/keys', { name: `key ${row}`, scopes: ['read'] }],
    invitationId: ['/v1/invitations', { role: 'reader' }],
  };
  const ids: Record<string, string> = {};
  for (const [name, [path, body]] of Object.entries(made)) ids[name] = (await our.made(path, body)).id;
  return ids;
}

const anId = (row: number): { id: string } => ({ id: `00000000-0000-7000-8000-${String(row).padStart(12, '0')}` });
const PLAY = { offense: 'home', playType: 'scrimmage', down: 1, distance: 10, callFamily: 'run' };

/** What a read must be told beyond the rows in its address: parameters of its query by the rows that they name. */
const QUERIES: Readonly<Record<string, Readonly<Record<string, string>>>> = {
  '/v1/answers': { playerId: 'playerId' },
  '/v1/call-mix': { playerId: 'playerId' },
  '/v1/call-sheets': { eventId: 'eventId', playerId: 'playerId', opponentId: 'opponentId' },
  '/v1/events/{eventId}/charting-queue': { player: 'playerId' },
  '/v1/events/{eventId}/meeting-odds': { player: 'playerId' },
  '/v1/events/{eventId}/next-opponents': { player: 'playerId' },
  '/v1/games/{gameId}/agreement': { first: 'chartId', second: 'secondChartId' },
  '/v1/players/{playerId}/fourth-down': { opponentId: 'opponentId', eventId: 'eventId' },
  '/v1/players/{playerId}/late-game': { opponentId: 'opponentId', eventId: 'eventId' },
};
const FIXED_QUERIES: Readonly<Record<string, string>> = {
  '/v1/call-studies': 'concept=mesh',
  '/v1/players/{playerId}/fourth-down': 'distance=2&yardsToGoal=38',
  '/v1/players/{playerId}/late-game': 'clockSeconds=110&scoreDifference=-2',
  '/v1/terms': 'own=true',
};

/** Reads nothing when it begins but waits for what comes. */
const ENDLESS = '/v1/feed/stream';

const readsOf = (): Operation[] => operationsOf(api).filter(({ method, path }) => method === 'get' && path !== ENDLESS);

function addressOf({ path }: Operation, { rows }: Archive): string {
  const idOf = (name: string): string => {
    const id = rows[name];
    if (id === undefined) throw new Error(`an archive has no ${name}: make one, and as many as there are rows`);
    return id;
  };
  const address = path.replace(/\{(\w+)\}/g, (_, name: string) => idOf(name));
  const named = Object.entries(QUERIES[path] ?? {}).map(([parameter, name]) => `${parameter}=${idOf(name)}`);
  return `${address}?${[...named, FIXED_QUERIES[path] ?? ''].join('&')}`;
}

describe('the number of queries', () => {
  it('of everything that can be read is the same for one row as for twenty', async () => {
    const failures: object[] = [];
    for (const read of readsOf()) {
      const counts: number[] = [];
      for (const archive of [few, many]) {
        const get = async (): Promise<void> => {
          const { status, body } = await archive.person.get(addressOf(read, archive));
          if (status !== 200) failures.push({ path: read.path, status, body });
        };
        // Once before, since starter terms, columns and fields are read once a process.
        await get();
        counts.push(await queries.during(get));
      }
      const [one = 0, twenty = 0] = counts;
      if (twenty !== one || one > MOST_QUERIES) failures.push({ path: read.path, one, twenty });
    }
    expect(failures).toEqual([]);
  });

  it('of charting a play is the same in a long chart as in a short one', async () => {
    const chart = ({ our, rows }: Archive): Promise<number> =>
      queries.during(async () => {
        expect(await our.post(`/v1/charts/${rows['chartId'] ?? ''}/plays`, PLAY)).toMatchObject({ status: 201 });
      });
    expect(await chart(many)).toBe(await chart(few));
  });
});
