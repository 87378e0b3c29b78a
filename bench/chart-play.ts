import { uuidv7 } from 'uuidv7';
import { startService, type BenchService } from './support/service.js';
import { compare } from './support/timing.js';

const MOST_RATIO = 3;
const ROUNDS = 60;

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
  try {
    const chart = await make(service, '/v1/charts', { gameId: await makeGame(service), reference: 'main' });
    const bare = await make(service, '/v1/charts', { gameId: await makeGame(service), reference: 'main' });
    const client = await service.owner.connect();
    client.on('error', () => undefined);
    let number = 0;
    const insert = async (): Promise<void> => {
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
        values: [bare, number],
      });
      await client.query('commit');
    };
    const post = (): Promise<string> => make(service, `/v1/charts/${chart}/plays`, A_PLAY);
    for (let warming = 0; warming < 15; warming += 1) await Promise.all([insert(), post()]);
    const { subjectMs, baselineMs } = await compare(ROUNDS, post, insert);
    client.release();
    const ratio = subjectMs / baselineMs;
    console.log(
      `one play charted: ${subjectMs.toFixed(2)} ms, INSERT and COMMIT ${baselineMs.toFixed(2)} ms, ` +
        `ratio ${ratio.toFixed(2)}; target: at most ${MOST_RATIO}`,
    );
    return ratio <= MOST_RATIO;
  } finally {
    await service.close();
  }
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
