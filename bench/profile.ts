import { hashKey } from '#api/database/hash-key.js';
import { ClanTransactions } from '#api/database/clan-transaction.js';
import { createServicePool } from '#api/database/service-pool.js';
import { handleOf, type LeagueSize } from './support/league.js';
import { loadLeague } from './support/load-league.js';
import { PlainClient } from './support/plain-client.js';
import { startService, type BenchService } from './support/service.js';
import { compare, elapsedMs } from './support/timing.js';

/** 200,000 plays: the first player has 5,000 with the ball, a late one about 150. */
const LEAGUE: LeagueSize = { games: 1334, playsAGame: 150, gamesOfTheFirst: 67, players: 900, seed: 12 };
const ROUNDS = 100;
const MOST_RATIO = 3;

/** The floor that every profile is held against: one GROUP BY over the player's visible plays. */
const ONE_GROUP_BY = `
  select down, case when distance <= 2 then 0 when distance <= 6 then 1 when distance <= 10 then 2 else 3 end as bucket,
         formation, call_family, count(*)::int as plays, sum(yards_gained)::int as yards,
         (count(*) filter (where yards_gained >= case down when 1 then 0.4 when 2 then 0.6 else 1 end * distance))::int
           as successes
    from play
   where offense_player_id = $1
   group by 1, 2, 3, 4`;

/**
 * The full profile over HTTP against one GROUP BY as the service's role inside a clan transaction, serial plan, through
 * pg. Computed anew: each request asks for games up to another day long after the last, so that no kept answer fits; the
 * plays and the field's side of it are in the process. With the intervals of one-offs: the same, with the shares of what
 * was done once in a situation, which a profile only names. Asked again: the very same request, as a dashboard sends it.
 */
export async function benchProfile(): Promise<boolean> {
  const service = await startService();
  try {
    await loadLeague(service, LEAGUE);
    await service.owner.query('vacuum analyze');
    const large = await playerOf(service, 0);
    const small = await playerWithAbout(service, 150);
    const client = await PlainClient.to(service.url, service.key);
    const cold = await elapsedMs(() => readProfile(client, large.id));
    console.log(
      `archive of ${LEAGUE.games * LEAGUE.playsAGame} plays; first profile, which builds the field: ${cold.toFixed(0)} ms`,
    );
    const ratios: number[] = [];
    for (const { id, plays } of [large, small]) ratios.push(await benchPlayer(service, client, { id, plays }));
    client.close();
    console.log(`target: computed anew in at most ${MOST_RATIO} times one GROUP BY, as a profile is asked for`);
    return ratios.every((ratio) => ratio <= MOST_RATIO);
  } finally {
    await service.close();
  }
}

async function benchPlayer(service: BenchService, client: PlainClient, { id, plays }: BenchPlayer): Promise<number> {
  const pool = createServicePool(service.serviceUrl, {
    poolSize: 2,
    statementTimeoutMs: 60_000,
    idleInTransactionTimeoutMs: 60_000,
  });
  const transactions = new ClanTransactions(pool);
  const credential = { keyHash: hashKey(service.key) };
  const groupBy = (): Promise<unknown> => transactions.run(credential, 'read', (db) => db.query(ONE_GROUP_BY, [id]));
  let asked = 0;
  const anew = (): Promise<void> => readProfile(client, id, `?to=${dayAfter((asked += 1))}`);
  const inFull = (): Promise<void> => readProfile(client, id, `?oneOffs=shares&to=${dayAfter((asked += 1))}`);
  const again = (): Promise<void> => readProfile(client, id);
  for (let warming = 0; warming < ROUNDS; warming += 1) {
    // One request at a time goes over the connection.
    await anew();
    await inFull();
    await again();
    await groupBy();
  }
  const computed = await compare(ROUNDS, anew, groupBy);
  const whole = await compare(ROUNDS, inFull, groupBy);
  const kept = await compare(ROUNDS, again, groupBy);
  await pool.end();
  const found = { 'computed anew': computed, 'with the intervals of one-offs': whole, 'asked again': kept };
  for (const [what, { subjectMs, baselineMs }] of Object.entries(found)) {
    const ratio = (subjectMs / baselineMs).toFixed(2);
    console.log(
      `${plays} plays, ${what}: ${subjectMs.toFixed(1)} ms, one GROUP BY ${baselineMs.toFixed(1)} ms, ratio ${ratio}`,
    );
  }
  return computed.subjectMs / computed.baselineMs;
}

async function readProfile(client: PlainClient, id: string, query = ''): Promise<void> {
  const { status, headers } = await client.get(`/v1/players/${id}/profile${query}`);
  if (status !== 200) throw new Error(`the profile answered ${headers}`);
}

interface BenchPlayer {
  readonly id: string;
  readonly plays: number;
}

async function playerOf({ owner }: BenchService, player: number): Promise<BenchPlayer> {
  const { rows } = await owner.query<BenchPlayer>(
    `select p.id, count(*)::int as plays from player p join play on play.offense_player_id = p.id
      where p.handle = $1 group by p.id`,
    [handleOf(player)],
  );
  return rows[0] ?? { id: '', plays: 0 };
}

async function playerWithAbout({ owner }: BenchService, plays: number): Promise<BenchPlayer> {
  const { rows } = await owner.query<BenchPlayer>(
    `select offense_player_id as id, count(*)::int as plays from play group by 1 order by abs(count(*) - $1), 1 limit 1`,
    [plays],
  );
  return rows[0] ?? { id: '', plays: 0 };
}

/** A day long after every game of the league. */
function dayAfter(days: number): string {
  return new Date(Date.UTC(2030, 0, 1 + days)).toISOString().slice(0, 10);
}
