import { Agent, request } from 'node:http';
import { Readable } from 'node:stream';
import { text } from 'node:stream/consumers';
import { handleOf, leagueRecords, leagueSheet, type LeagueSize } from './support/league.js';
import { send, spawnServer, startService } from './support/service.js';
import { median } from './support/timing.js';

/** 9,000 plays: a clan that has charted sixty games. */
const LEAGUE: LeagueSize = { games: 60, playsAGame: 150, gamesOfTheFirst: 8, players: 20, seed: 21 };
const ROUNDS = 7;
const ASKED_A_ROUND = 400;
const AT_A_TIME = 8;
const LEAST_RATIO = 0.5;
const MOST_P99 = 10;
const BODY = JSON.stringify({
  snap: { down: 3, distance: 7, yardsToGoal: 48 },
  gameSoFar: Array.from({ length: 20 }, () => ({ down: 1, distance: 10, callFamily: 'run' })),
});

interface Load {
  readonly rate: number;
  readonly p99Ms: number;
}

/** Next-call over HTTP against a bare route of the same framework in a process of its own, by turns. */
export async function benchNextCall(): Promise<boolean> {
  const service = await startService();
  const bare = await spawnServer('dist/bench/support/bare-route.js', {});
  const agent = new Agent({ keepAlive: true, maxSockets: AT_A_TIME });
  try {
    await send(service, 'application/x-ndjson', leagueRecords(LEAGUE));
    await send(service, 'text/csv', Readable.toWeb(Readable.from(leagueSheet(LEAGUE))) as ReadableStream);
    await service.owner.query('vacuum analyze');
    const { rows } = await service.owner.query<{ id: string }>('select id from player where handle = $1', [
      handleOf(0),
    ]);
    const ours = `${service.url}/v1/players/${rows[0]?.id ?? ''}/next-call`;
    const theirs = `${bare.url}/bare`;
    const fitted = await fitMs(agent, ours, service.key);
    console.log(`the archive's model was fitted ${fitted.toFixed(0)} ms after the first question`);
    for (const url of [ours, theirs]) await load(agent, url, service.key);
    const rounds: { ours: Load; theirs: Load }[] = [];
    for (let round = 0; round < ROUNDS; round += 1) {
      const bareLoad = await load(agent, theirs, service.key);
      rounds.push({ theirs: bareLoad, ours: await load(agent, ours, service.key) });
    }
    const ratio = median(rounds.map((round) => round.ours.rate / round.theirs.rate));
    const slower = median(rounds.map((round) => round.ours.p99Ms / round.theirs.p99Ms));
    console.log(
      `next-call ${median(rounds.map((round) => round.ours.rate)).toFixed(0)} a second, bare route ` +
        `${median(rounds.map((round) => round.theirs.rate)).toFixed(0)}, ratio ${ratio.toFixed(2)}; target: at least ${LEAST_RATIO}`,
    );
    console.log(
      `p99 ${median(rounds.map((round) => round.ours.p99Ms)).toFixed(1)} ms, bare route ` +
        `${median(rounds.map((round) => round.theirs.p99Ms)).toFixed(1)} ms, ratio ${slower.toFixed(1)}; target: below ${MOST_P99}`,
    );
    return ratio >= LEAST_RATIO && slower < MOST_P99;
  } finally {
    agent.destroy();
    await bare.close();
    await service.close();
  }
}

const LONGEST_FIT_MS = 60_000;

/** Until the model answers, questions are answered by counting, which takes another time. */
async function fitMs(agent: Agent, url: string, key: string): Promise<number> {
  const start = performance.now();
  for (;;) {
    const answer = JSON.parse(await ask(agent, url, key)) as { readonly answeredBy: string };
    const elapsed = performance.now() - start;
    if (answer.answeredBy === 'model') return elapsed;
    if (elapsed > LONGEST_FIT_MS) throw new Error(`no model after ${LONGEST_FIT_MS} ms`);
  }
}

async function load(agent: Agent, url: string, key: string): Promise<Load> {
  const start = performance.now();
  const times: number[] = [];
  let left = ASKED_A_ROUND;
  const asker = async (): Promise<void> => {
    while (left-- > 0) {
      const sent = performance.now();
      await ask(agent, url, key);
      times.push(performance.now() - sent);
    }
  };
  await Promise.all(Array.from({ length: AT_A_TIME }, asker));
  const rate = (ASKED_A_ROUND * 1000) / (performance.now() - start);
  times.sort((a, b) => a - b);
  return { rate, p99Ms: times[Math.ceil(0.99 * times.length) - 1] ?? 0 };
}

function ask(agent: Agent, url: string, key: string): Promise<string> {
  const headers = { Authorization: `Bearer ${key}`, 'Content-Type': 'application/json' };
  return new Promise((resolve, reject) => {
    const sent = request(url, { agent, method: 'POST', headers }, (response) => {
      if (response.statusCode !== 200) reject(new Error(`answered ${response.statusCode ?? 0}`));
      text(response).then(resolve, reject);
    });
    sent.on('error', reject).end(BODY);
  });
}
