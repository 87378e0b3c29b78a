import { readSettings } from '#api/config/settings.js';
import { createApp } from '#api/create-app.js';
import { createClan } from '#api/database/create-clan.js';
import { handleOf, type LeagueSize } from './support/league.js';
import { loadLeague } from './support/load-league.js';
import { retainedBytes } from './support/memory.js';
import { send, startService, type BenchService } from './support/service.js';

/** 200,000 plays, as the bench of the profile has them. */
const LARGE: LeagueSize = { games: 1334, playsAGame: 150, gamesOfTheFirst: 67, players: 900, seed: 12 };
const SMALL: LeagueSize = { ...LARGE, games: 20, gamesOfTheFirst: 10 };
const PLAYS = LARGE.games * LARGE.playsAGame;
/** Of few games, so that what is kept of one player's own plays does not count. */
const PLAYER = handleOf(1);
/** An event of two, so that there is somebody to be met. */
const CUP = 'memory-cup';

/** In the order in which they are asked, so that each says what it adds to those before it. */
const OF_THE_MODEL = [
  'players/PLAYER/profile',
  'players/PLAYER/profile?side=defense',
  'players/PLAYER/tells',
  'events/EVENT/charting-queue?player=PLAYER',
];
const OF_THE_PLAYS = [
  ...['adjustments', 'decisions', 'disguise', 'drift', 'manual-defender', 'point-of-attack', 'sequences'].map(
    (question) => `players/PLAYER/${question}`,
  ),
  'trends?side=offense',
  'call-mix?playerId=PLAYER',
];
const MOST_BYTES = 64;

/**
 * What a play of the field costs the running service in memory, question after question. Retained is what stays after a
 * full collection, typed arrays included; resident is what the system counts for the process, memory that waits to be
 * used again included. The service runs in this process, so that it can be made to collect; the files came in through
 * another one.
 */
export async function benchMemory(): Promise<boolean> {
  const service = await startService();
  try {
    const small = { ...service, ...(await createClan(service.ownerUrl, 'small')) };
    for (const [clan, size] of [
      [small, SMALL],
      [service, LARGE],
    ] as const) {
      await loadLeague(clan, size);
      await send(clan, 'application/x-ndjson', cup());
    }
    await service.owner.query('vacuum analyze');
    const app = await createApp(readSettings({ LOG_LEVEL: 'error', RATE_LIMIT_REQUESTS: '0' }), service.serviceUrl);
    try {
      await app.listen(0, '127.0.0.1');
      const url = await app.getUrl();
      // A small archive is asked first: code that runs for the first time is compiled, and stays.
      for (const question of [...OF_THE_MODEL, ...OF_THE_PLAYS]) await ask(url, small, question);
      return await benchQuestions(url, service);
    } finally {
      await app.close();
    }
  } finally {
    await service.close();
  }
}

async function benchQuestions(url: string, service: BenchService): Promise<boolean> {
  const [retained, resident] = [retainedBytes(), process.memoryUsage.rss()];
  const held = async (questions: readonly string[]): Promise<number> => {
    let most = 0;
    for (const question of questions) {
      await ask(url, service, question);
      const perPlay = (retainedBytes() - retained) / PLAYS;
      const residentPerPlay = (process.memoryUsage.rss() - resident) / PLAYS;
      console.log(`  ${question}: ${perPlay.toFixed(1)} retained, ${residentPerPlay.toFixed(1)} resident`);
      most = Math.max(most, perPlay);
    }
    return most;
  };
  console.log(`archive of ${PLAYS} plays; bytes a play beyond what the service holds without it, after each question:`);
  const most = await held(OF_THE_MODEL);
  console.log(`  these need the field's model alone; target: at most ${MOST_BYTES} bytes retained`);
  await held(OF_THE_PLAYS);
  console.log(`  these need the field's plays as well; no target`);
  return most <= MOST_BYTES;
}

async function ask(url: string, clan: BenchService, question: string): Promise<void> {
  const player = await idOf(clan, `select id from player where clan_id = $1 and handle = $2`, PLAYER);
  const event = await idOf(clan, `select id from event where clan_id = $1 and reference = $2`, CUP);
  const path = question.replace('PLAYER', player).replace('EVENT', event);
  // Collecting takes longer than an idle connection is kept.
  const headers = { Authorization: `Bearer ${clan.key}`, Connection: 'close' };
  const response = await fetch(`${url}/v1/${path}`, { headers });
  const body = await response.text();
  if (!response.ok) throw new Error(`${path} answered ${response.status}: ${body.slice(0, 500)}`);
}

async function idOf({ owner, clanId }: BenchService, query: string, name: string): Promise<string> {
  const { rows } = await owner.query<{ id: string }>(query, [clanId, name]);
  return rows[0]?.id ?? '';
}

function cup(): string {
  const [home, away] = [PLAYER, handleOf(2)];
  const records = [
    { record: 'event', reference: CUP, name: 'Memory Cup', status: 'running' },
    { record: 'entrant', event: CUP, player: home },
    { record: 'entrant', event: CUP, player: away },
    { record: 'match', event: CUP, round: 1, position: 1, home, away, status: 'ready' },
  ];
  return records.map((record) => `${JSON.stringify(record)}\n`).join('');
}
