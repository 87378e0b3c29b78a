import type { PoolClient } from 'pg';
import { uuidv7 } from 'uuidv7';
import { PlainClient } from './support/plain-client.js';
import { startService, type BenchService } from './support/service.js';
import { compare, median } from './support/timing.js';

const MOST_RATIO = 3;
/** Of each way, as a service has charted that has been up for an evening. */
const WARMING_GAMES = 6;
const GAMES = 4;
const PLAYS_A_GAME = 75;

/** What a person charts of a usual snap. */
const A_PLAY = {
  offense: 'home',
  playType: 'scrimmage',
  quarter: 1,
  down: 1,
  distance: 10,
  yardsToGoal: 75,
  formation: 'trips',
  callFamily: 'run',
  snapResult: 'rushed',
  yardsGained: 4,
};

/**
 * One play charted over HTTP (checked, numbered, revision and packed copy with it) against INSERT and COMMIT of the same
 * row through pg on one open connection, by turns, in charts that grow alike to the length of a game.
 */
export async function benchChartPlay(): Promise<boolean> {
  const service = await startService();
  const plain = await PlainClient.to(service.url, service.key);
  const client = await service.owner.connect();
  client.on('error', () => undefined);
  try {
    const rounds: { readonly subjectMs: number; readonly baselineMs: number }[] = [];
    for (let game = 0; game < WARMING_GAMES + GAMES; game += 1) {
      const chart = await make(service, '/v1/charts', { gameId: await makeGame(service), reference: 'main' });
      const bare = await make(service, '/v1/charts', { gameId: await makeGame(service), reference: 'main' });
      const post = (): Promise<void> => chartPlay(plain, chart);
      rounds.push(await compare(PLAYS_A_GAME, post, inserting(client, bare)));
    }
    const measured = rounds.slice(WARMING_GAMES);
    const subjectMs = median(measured.map((round) => round.subjectMs));
    const baselineMs = median(measured.map((round) => round.baselineMs));
    const ratio = median(measured.map((round) => round.subjectMs / round.baselineMs));
    console.log(
      `one play charted: ${subjectMs.toFixed(2)} ms, INSERT and COMMIT ${baselineMs.toFixed(2)} ms, ` +
        `ratio ${ratio.toFixed(2)}; target: at most ${MOST_RATIO}`,
    );
    return ratio <= MOST_RATIO;
  } finally {
    plain.close();
    client.release();
    await service.close();
  }
}

async function chartPlay(plain: PlainClient, chart: string): Promise<void> {
  const { status } = await plain.post(`/v1/charts/${chart}/plays`, JSON.stringify(A_PLAY));
  if (status !== 201) throw new Error(`the play was answered with ${status}`);
}

/** The next play of a chart each time. */
function inserting(client: PoolClient, chart: string): () => Promise<void> {
  let number = 0;
  return async () => {
    number += 1;
    await client.query('begin');
    await client.query({
      name: 'insert',
      text: `insert into play (clan_id, chart_id, scope_id, game_id, play_number, order_in_game, offense_player_id,
                               defense_player_id, play_type, quarter, down, distance, yards_to_goal, formation,
                               call_family, snap_result, yards_gained)
             select c.clan_id, c.id, c.scope_id, c.game_id, $2, $2, g.home_player_id, g.away_player_id, 'scrimmage',
                    1, 1, 10, 75, 1, 100, 300, 4
               from chart c join game g on g.clan_id = c.clan_id and g.id = c.game_id where c.id = $1`,
      values: [chart, number],
    });
    await client.query('commit');
  };
}

async function makeGame(service: BenchService): Promise<string> {
  const homePlayerId = await make(service, '/v1/players', { handle: uuidv7() });
  const awayPlayerId = await make(service, '/v1/players', { handle: uuidv7() });
  return make(service, '/v1/games', { reference: uuidv7(), importance: 'group', homePlayerId, awayPlayerId });
}

/** Makes one over HTTP; its id, or its number. */
async function make(service: BenchService, path: string, body: object): Promise<string> {
  const response = await fetch(`${service.url}${path}`, {
    method: 'POST',
    headers: { Authorization: `Bearer ${service.key}`, 'Content-Type': 'application/json' },
    body: JSON.stringify(body),
  });
  const text = await response.text();
  if (response.status !== 201) throw new Error(`${path} answered ${response.status}: ${text.slice(0, 300)}`);
  return (response.headers.get('Location') ?? '').split('/').at(-1) ?? '';
}
