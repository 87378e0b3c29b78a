import { Agent, request } from 'node:http';
import { Readable } from 'node:stream';
import { text } from 'node:stream/consumers';
import { handleOf, leagueRecords, leagueSheet, type LeagueSize } from './support/league.js';
import { send, spawnServer, startService } from './support/service.js';
import { median } from './support/timing.js';

/** 9,000 plays: a clan that has charted sixty games. */
const LEAGUE: LeagueSize = { games: 60, playsAGame: 150, gamesOfTheFirst: 8, players: 20, seed: 21 };
const ROUNDS = 25;
/** As a service that has been up for an evening: some ten thousand questions, until V8 compiles nothing anew. */
const WARMING_ROUNDS = 25;
const GAMES_A_ROUND = 8;
const SNAPS_A_GAME = 17;
/** A person looks again as the look takes shape: what is lined up, then where it moves to. */
const LOOKS = [{}, { formation: 'trips' }, { formation: 'trips', motion: 'jet' }] as const;
/** A game is well under way when the first question comes. */
const SNAPS_BEFORE = 12;
const LEAST_RATIO = 0.5;
const MOST_P99 = 10;

/** Bodies of the questions of one game, in the order in which they are asked: it grows by a snap every three. */
function questionsOf(game: number): string[] {
  const situations = Array.from({ length: SNAPS_BEFORE + SNAPS_A_GAME }, (_, snap) => ({
    down: 1 + ((snap * 7 + game) % 3),
    distance: 1 + ((snap * 5 + game * 3) % 12),
    yardsToGoal: 5 + ((snap * 13 + game * 11) % 90),
  }));
  const played = situations.map((situation, snap) => ({
    ...situation,
    callFamily: (snap + game) % 3 === 0 ? 'run' : 'dropback pass',
  }));
  return situations.slice(SNAPS_BEFORE).flatMap((situation, at) => {
    const gameSoFar = played.slice(0, SNAPS_BEFORE + at);
    return LOOKS.map((look) => JSON.stringify({ snap: { ...situation, ...look }, gameSoFar }));
  });
}

interface Load {
  readonly rate: number;
  readonly p99Ms: number;
}

/**
 * Next-call over HTTP against a bare route of the same framework in a process of its own, by turns, with the same bodies:
 * eight games in progress at a time, others in every round.
 */
export async function benchNextCall(): Promise<boolean> {
  const service = await startService();
  const bare = await spawnServer('dist/bench/support/bare-route.js', {});
  const agent = new Agent({ keepAlive: true, maxSockets: GAMES_A_ROUND });
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
    for (let round = 0; round < WARMING_ROUNDS; round += 1) {
      for (const url of [ours, theirs]) await load(agent, url, service.key, ROUNDS + round);
    }
    const rounds: { ours: Load; theirs: Load }[] = [];
    for (let round = 0; round < ROUNDS; round += 1) {
      const bareLoad = await load(agent, theirs, service.key, round);
      rounds.push({ theirs: bareLoad, ours: await load(agent, ours, service.key, round) });
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
  const [first = ''] = questionsOf(0);
  const start = performance.now();
  for (;;) {
    const answer = JSON.parse(await ask(agent, url, key, first)) as { readonly answeredBy: string };
    const elapsed = performance.now() - start;
    if (answer.answeredBy === 'model') return elapsed;
    if (elapsed > LONGEST_FIT_MS) throw new Error(`no model after ${LONGEST_FIT_MS} ms`);
  }
}

async function load(agent: Agent, url: string, key: string, round: number): Promise<Load> {
  const games = Array.from({ length: GAMES_A_ROUND }, (_, game) => questionsOf(round * GAMES_A_ROUND + game));
  const start = performance.now();
  const times: number[] = [];
  const play = async (questions: readonly string[]): Promise<void> => {
    for (const question of questions) {
      const sent = performance.now();
      await ask(agent, url, key, question);
      times.push(performance.now() - sent);
    }
  };
  await Promise.all(games.map(play));
  const rate = (times.length * 1000) / (performance.now() - start);
  times.sort((a, b) => a - b);
  return { rate, p99Ms: times[Math.ceil(0.99 * times.length) - 1] ?? 0 };
}

function ask(agent: Agent, url: string, key: string, question: string): Promise<string> {
  const headers = { Authorization: `Bearer ${key}`, 'Content-Type': 'application/json' };
  return new Promise((resolve, reject) => {
    const sent = request(url, { agent, method: 'POST', headers }, (response) => {
      if (response.statusCode !== 200) reject(new Error(`answered ${response.statusCode ?? 0}`));
      text(response).then(resolve, reject);
    });
    sent.on('error', reject).end(question);
  });
}
