import { request, Agent } from 'node:http';
import { spawnServer, startService, type BenchService } from './support/service.js';
import { median } from './support/timing.js';

const ROUNDS = 31;
const READS_A_ROUND = 1_500;
const AT_A_TIME = 8;

/**
 * An authenticated, clan-scoped read of one row over HTTP against the same read on a bare pg pool behind node:http, as
 * requests a second, by turns. The bare one checks no key, enters no clan and sees every row.
 */
async function benchOneRow(leastRatio: number): Promise<boolean> {
  const service = await startService();
  const bare = await spawnServer('dist/bench/support/bare-server.js', { DATABASE_URL: service.ownerUrl });
  const agent = new Agent({ keepAlive: true, maxSockets: AT_A_TIME });
  try {
    const id = await makePlayer(service);
    const ours = { url: `${service.url}/v1/players/${id}`, key: service.key };
    const theirs = { url: `${bare.url}/${id}`, key: service.key };
    for (const target of [ours, theirs]) await readsASecond(agent, target);
    const ratios: number[] = [];
    const rates: number[] = [];
    const bareRates: number[] = [];
    for (let round = 0; round < ROUNDS; round += 1) {
      const bareRate = await readsASecond(agent, theirs);
      const rate = await readsASecond(agent, ours);
      ratios.push(rate / bareRate);
      rates.push(rate);
      bareRates.push(bareRate);
    }
    const ratio = median(ratios);
    console.log(
      `one row, ${AT_A_TIME} at a time: ${median(rates).toFixed(0)} reads a second, bare ${median(bareRates).toFixed(0)}, ` +
        `ratio ${ratio.toFixed(2)}; target: at least ${leastRatio}`,
    );
    return ratio >= leastRatio;
  } finally {
    agent.destroy();
    await bare.close();
    await service.close();
  }
}

/** The floor of the first version. */
export function benchRead(): Promise<boolean> {
  return benchOneRow(0.35);
}

/** The floor of a service that keeps clans apart. */
export function benchAccess(): Promise<boolean> {
  return benchOneRow(0.4);
}

interface Target {
  readonly url: string;
  readonly key: string;
}

async function readsASecond(agent: Agent, target: Target): Promise<number> {
  const start = performance.now();
  let left = READS_A_ROUND;
  const reader = async (): Promise<void> => {
    while (left-- > 0) await read(agent, target);
  };
  await Promise.all(Array.from({ length: AT_A_TIME }, reader));
  return (READS_A_ROUND * 1000) / (performance.now() - start);
}

function read(agent: Agent, { url, key }: Target): Promise<void> {
  return new Promise((resolve, reject) => {
    const sent = request(url, { agent, headers: { Authorization: `Bearer ${key}` } }, (response) => {
      if (response.statusCode !== 200) reject(new Error(`answered ${response.statusCode ?? 0}`));
      response.resume().on('end', resolve);
    });
    sent.on('error', reject).end();
  });
}

async function makePlayer(service: BenchService): Promise<string> {
  const response = await fetch(`${service.url}/v1/players`, {
    method: 'POST',
    headers: { Authorization: `Bearer ${service.key}`, 'Content-Type': 'application/json' },
    body: JSON.stringify({ handle: 'Mossback', aliases: ['moss'] }),
  });
  if (response.status !== 201) throw new Error(`making a player answered ${response.status}`);
  return (response.headers.get('Location') ?? '').split('/').at(-1) ?? '';
}
