import { spawn, type ChildProcess } from 'node:child_process';
import { once } from 'node:events';
import { chmod, mkdtemp, readFile, rm, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { createInterface } from 'node:readline';
import { Pool } from 'pg';
import { createClan } from '#api/database/create-clan.js';
import { startEmbeddedServer } from '#api/database/embedded-server.js';
import { migrate } from '#api/database/migrate.js';

/** The service in a process of its own, as in production, on a fresh embedded database. */
export interface BenchService {
  readonly url: string;
  readonly key: string;
  readonly clanId: string;
  readonly owner: Pool;
  readonly ownerUrl: string;
  readonly serviceUrl: string;
  readonly folder: string;
  /** Resident memory of the service's process in MB: now, and the most since the last reset. */
  memory(): Promise<{ readonly nowMb: number; readonly peakMb: number }>;
  resetPeak(): Promise<void>;
  close(): Promise<void>;
}

export async function startService(): Promise<BenchService> {
  const folder = await mkdtemp(join(tmpdir(), 'roundbook-bench-'));
  // Under root the server runs as another user, who must be able to pass through.
  await chmod(folder, 0o711);
  const server = await startEmbeddedServer({ dataFolder: join(folder, 'data') });
  await migrate(server.ownerUrl);
  const { clanId, key } = await createClan(server.ownerUrl, 'bench');
  const spawned = await spawnService(server.ownerUrl, server.serviceUrl);
  const { child, url } = spawned;
  const owner = new Pool({ connectionString: server.ownerUrl, max: 2 });
  // Idle connections are told of the server's stopping.
  owner.on('error', () => undefined);
  return {
    url,
    key,
    clanId,
    owner,
    ownerUrl: server.ownerUrl,
    serviceUrl: server.serviceUrl,
    folder,
    memory: async () => {
      const status = await readFile(`/proc/${child.pid ?? 0}/status`, 'utf8');
      return { nowMb: kilobytes(status, 'VmRSS') / 1024, peakMb: kilobytes(status, 'VmHWM') / 1024 };
    },
    // What the kernel documents as resetting the peak of resident memory (proc(5), clear_refs).
    resetPeak: () => writeFile(`/proc/${child.pid ?? 0}/clear_refs`, '5'),
    close: async () => {
      await spawned.close();
      await owner.end();
      await server.stop();
      await rm(folder, { recursive: true, force: true });
    },
  };
}

function spawnService(ownerUrl: string, serviceUrl: string): Promise<SpawnedServer> {
  return spawnServer('dist/apps/api/src/main.js', {
    PORT: '0',
    DATABASE_URL: ownerUrl,
    DATABASE_SERVICE_URL: serviceUrl,
    LOG_LEVEL: 'error',
    // Counted as in production, and never refused.
    RATE_LIMIT_REQUESTS: '1000000000',
    RATE_LIMIT_ADDRESS_REQUESTS: '1000000000',
    BODY_LIMIT_BYTES: String(512 * 1024 * 1024),
  });
}

export interface SpawnedServer {
  readonly child: ChildProcess;
  readonly url: string;
  /** Ends the process and waits for its end. */
  close(): Promise<void>;
}

/** What `npm start` tells Node. */
async function nodeFlags(): Promise<string[]> {
  const { scripts } = JSON.parse(await readFile('package.json', 'utf8')) as { scripts: Record<string, string> };
  return (
    / node ((?:--\S+ )+)/
      .exec(scripts['start'] ?? '')?.[1]
      ?.trim()
      .split(' ') ?? []
  );
}

/** A server in a process of its own, once it has said at which address it answers. */
export async function spawnServer(script: string, settings: Readonly<Record<string, string>>): Promise<SpawnedServer> {
  const child = spawn(process.execPath, [...(await nodeFlags()), script], {
    env: { ...process.env, ...settings },
    stdio: ['ignore', 'pipe', 'inherit'],
  });
  for await (const line of createInterface({ input: child.stdout })) {
    const url = /answers at (\S+),/.exec(line)?.[1];
    if (url === undefined) continue;
    child.stdout.resume();
    return {
      child,
      url,
      close: async () => {
        child.kill('SIGTERM');
        await once(child, 'exit');
      },
    };
  }
  throw new Error(`${script} ended before it answered`);
}

function kilobytes(status: string, name: string): number {
  return Number(new RegExp(`${name}:\\s+(\\d+) kB`).exec(status)?.[1] ?? Number.NaN);
}

/** Sends a file and answers with the import's own account of it; anything but success ends the bench. */
export async function send(
  service: BenchService,
  contentType: string,
  body: string | ReadableStream,
  query = '',
): Promise<unknown> {
  const response = await fetch(`${service.url}/v1/imports${query}`, {
    method: 'POST',
    headers: { Authorization: `Bearer ${service.key}`, 'Content-Type': contentType },
    body,
    duplex: 'half',
  });
  const answer: unknown = await response.json();
  if (!response.ok) throw new Error(`the import answered ${response.status}: ${JSON.stringify(answer).slice(0, 500)}`);
  return answer;
}
