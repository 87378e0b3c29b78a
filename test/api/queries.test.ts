import type { Pool } from 'pg';
import { SERVICE_POOL } from '#api/database/clan-transaction.js';
import { countQueries, type QueryCount } from '../support/count-queries.js';
import { aChart, aClan, aGame, anEvent, aPlay, aPlayer, insert } from '../support/factories.js';
import { handOf, type Hand } from '../support/http.js';
import { startTestApi, type TestApi } from '../support/test-api.js';

/** More of everything than one, so that a query for each row would show. */
const MANY = 20;

interface Archive {
  readonly our: Hand;
  readonly event: string;
  /** With a bracket of as many matches as there are rows. */
  readonly bracketed: string;
  readonly player: string;
  readonly game: string;
  readonly chart: string;
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
  const event = await anEvent(owner, clan);
  const game = await aGame(owner, clan, { row: { event_id: event } });
  const chart = await aChart(owner, clan, { game });
  const { id: menuCall } = await our.made('/v1/menu-calls', { side: 'offense', name: 'x', formation: 'trips' });
  await our.made(`/v1/charts/${chart.id}/plays`, play(0));
  for (let row = 1; row <= rows; row += 1) {
    const player = await aPlayer(owner, clan);
    await insert(owner, 'player_alias', {
      ...own,
      ...anId(row),
      player_id: player,
      alias: `a${row}`,
      normalised_alias: `a${row}`,
    });
    await insert(owner, 'entrant', { ...own, ...anId(row), event_id: event, player_id: player });
    await insert(owner, 'match', { ...own, ...anId(row), event_id: event, round: 1, position: row });
    await anEvent(owner, clan);
    const other = await aGame(owner, clan, { homePlayerId: game.homePlayerId, awayPlayerId: player });
    await insert(owner, 'game_video', {
      ...own,
      ...anId(row),
      game_id: other.id,
      kind: 'neutral',
      url: 'https://film.example/1',
    });
    await our.made('/v1/charts', { gameId: other.id, reference: 'main' });
    await aPlay(owner, clan, { chart, row: { formation: 1, coverage: 200 } });
    await our.made('/v1/menu-calls', { side: 'offense', name: `m${row}`, formation: 'trips' });
    await our.made('/v1/own-calls', {
      gameId: game.id,
      orderInGame: row,
      side: 'offense',
      menuCallId: menuCall,
      concept: 'mesh',
    });
    await our.made('/v1/coaching-points', { about: 'call', concept: 'mesh', text: 'Look here.' });
    await our.made('/v1/terms', { kind: 'formation', name: `Lantern ${row}`, synonyms: [`l${row}`] });
  }
  const { id: bracketed } = await our.made('/v1/events', { reference: 'bracketed', name: 'Bracketed' });
  const { body } = await our.get('/v1/players?limit=200');
  const players = (body.items as { id: string }[]).map(({ id }) => id).filter((id) => id !== game.homePlayerId);
  for (const playerId of [game.homePlayerId, ...players.slice(0, rows)]) {
    await our.made(`/v1/events/${bracketed}/entrants`, { playerId });
  }
  await our.post(`/v1/events/${bracketed}/bracket`, { structure: 'single elimination' });
  for (const opponentId of players.slice(0, rows)) {
    await our.made('/v1/match-up-overrides', { playerId: game.homePlayerId, opponentId, winProbability: 0.6 });
  }
  // The packed copy as it is after all that was written past the service.
  await our.patch(`/v1/charts/${chart.id}/plays/1`, { note: 'warm' });
  return { our, event, bracketed, player: game.homePlayerId, game: game.id, chart: chart.id };
}

const anId = (row: number): { id: string } => ({ id: `00000000-0000-7000-8000-${String(row).padStart(12, '0')}` });
const play = (order: number): object => ({ offense: 'home', playType: 'scrimmage', note: `${order}` });

const READS: readonly (readonly [string, (archive: Archive) => string])[] = [
  ['players', () => '/v1/players'],
  ['a player', ({ player }) => `/v1/players/${player}`],
  ['plays of a player', ({ player }) => `/v1/players/${player}/plays`],
  ['a profile', ({ player }) => `/v1/players/${player}/profile`],
  ['events', () => '/v1/events'],
  ['an event', ({ event }) => `/v1/events/${event}`],
  ['a bracket', ({ event }) => `/v1/events/${event}/bracket`],
  ['the feed', () => '/v1/feed'],
  ['the feed of an event', ({ event }) => `/v1/feed?eventId=${event}`],
  ['entrants', ({ event }) => `/v1/events/${event}/entrants`],
  ['matches', ({ event }) => `/v1/events/${event}/matches`],
  ['games', () => '/v1/games'],
  ['a game', ({ game }) => `/v1/games/${game}`],
  ['plays of a game', ({ game }) => `/v1/games/${game}/plays`],
  ['charts', () => '/v1/charts'],
  ['a chart', ({ chart }) => `/v1/charts/${chart}`],
  ['continuity of a chart', ({ chart }) => `/v1/charts/${chart}/continuity`],
  ['plays of a chart', ({ chart }) => `/v1/charts/${chart}/plays`],
  ['a play', ({ chart }) => `/v1/charts/${chart}/plays/1`],
  ['terms', () => '/v1/terms?own=true'],
  ['the menu', () => '/v1/menu-calls'],
  ['own calls', () => '/v1/own-calls'],
  ['coaching points', () => '/v1/coaching-points'],
  ['round reports', () => '/v1/round-reports'],
  ['trends', () => '/v1/trends'],
  ['ratings', () => '/v1/ratings'],
  ['overridden match-ups', () => '/v1/match-up-overrides'],
  ['meeting odds', ({ bracketed, player }) => `/v1/events/${bracketed}/meeting-odds?player=${player}`],
];

/** Pages that bring many answers together. */
const GATHERED: readonly (readonly [what: string, pathOf: (archive: Archive) => string, most: number])[] = [
  ['a call study', () => '/v1/call-studies?concept=mesh', 20],
];
const MOST = 9;

describe('the number of queries', () => {
  it.each([...READS.map(([what, pathOf]) => [what, pathOf, MOST] as const), ...GATHERED])(
    'of %s is the same for one row as for twenty',
    async (_what, pathOf, most) => {
      const counted = async (archive: Archive): Promise<number> => {
        const get = async (): Promise<void> => {
          expect(await archive.our.get(pathOf(archive))).toMatchObject({ status: 200 });
        };
        // Once before, since starter terms and columns are read once a process.
        await get();
        return queries.during(get);
      };
      const [one, twenty] = [await counted(few), await counted(many)];
      expect(twenty).toBe(one);
      expect(one).toBeLessThanOrEqual(most);
    },
  );

  it('of charting a play is the same in a long chart as in a short one', async () => {
    const chart = ({ our, chart: id }: Archive): Promise<number> =>
      queries.during(async () => {
        expect(await our.post(`/v1/charts/${id}/plays`, play(1))).toMatchObject({ status: 201 });
      });
    expect(await chart(many)).toBe(await chart(few));
  });
});
