import { execFile, spawn, type ChildProcess } from 'node:child_process';
import { chown, mkdir, open, readFile, rename, rm, writeFile } from 'node:fs/promises';
import { createServer } from 'node:net';
import { join } from 'node:path';
import { setTimeout as pause } from 'node:timers/promises';
import { promisify } from 'node:util';
import { clusterIn } from './data-folder.js';
import type { EmbeddedBinaries } from './embedded-binaries.js';
import { readPidFile } from './pid-file.js';
import type { ServerAccount } from './server-account.js';

const run = promisify(execFile);

const START_PATIENCE_MS = 60_000;
/** Between finding a free port and binding it, somebody else may take it. */
const PORT_ATTEMPTS = 5;

/** Into a folder beside the real one, so that an initdb that was killed half-way leaves nothing that looks finished. */
export async function createCluster(
  { initdb }: EmbeddedBinaries,
  account: ServerAccount,
  dataFolder: string,
  adminPassword: string,
  durable: boolean,
): Promise<void> {
  const half = join(dataFolder, 'postgres.new');
  const passwordFile = join(half, '.password');
  await rm(half, { recursive: true, force: true });
  await mkdir(half, { mode: 0o700 });
  const made = join(half, 'cluster');
  await writeFile(passwordFile, `${adminPassword}\n`, { mode: 0o600 });
  if (account !== undefined) for (const path of [half, passwordFile]) await chown(path, account.uid, account.gid);
  const flags = [
    ...[`--pgdata=${made}`, '--username=postgres', `--pwfile=${passwordFile}`, '--auth=scram-sha-256'],
    // The same order of text on every machine, whatever its own language is.
    ...['--encoding=UTF8', '--locale=C', '--locale-provider=builtin', '--builtin-locale=C.UTF-8'],
    ...(durable ? [] : ['--no-sync']),
  ];
  await run(initdb, flags, { ...as(account), cwd: half, env: plainEnvironment() }).catch((cause: unknown) => {
    throw new Error(`A new database could not be made in ${dataFolder}: ${lastWords(cause)}`, { cause });
  });
  await rm(clusterIn(dataFolder), { recursive: true, force: true });
  await rename(made, clusterIn(dataFolder));
  await rm(half, { recursive: true, force: true });
}

export interface StartedServer {
  readonly child: ChildProcess;
  readonly pid: number;
  readonly port: number;
}

export async function startServer(
  { postgres }: EmbeddedBinaries,
  account: ServerAccount,
  dataFolder: string,
  durable: boolean,
): Promise<StartedServer> {
  const cluster = clusterIn(dataFolder);
  const logFile = join(dataFolder, 'server.log');
  await rename(logFile, join(dataFolder, 'server.previous.log')).catch(() => undefined);
  for (let attempt = 1; ; attempt += 1) {
    const port = await freePort();
    const output = await open(logFile, 'a', 0o600);
    const child = spawn(postgres, ['-D', cluster, ...serverFlags(port, durable)], {
      ...as(account),
      cwd: cluster,
      env: plainEnvironment(),
      // A file rather than a pipe: a pipe breaks with this process, and the server would go on complaining into it.
      stdio: ['ignore', output.fd, output.fd],
      // Away from the terminal's process group: an interrupt from the keyboard would stop the server under requests.
      detached: true,
    });
    const ended = new Promise<string>((resolve) => {
      child.once('error', ({ message }) => {
        resolve(message);
      });
      child.once('exit', (code, signal) => {
        resolve(`it ended with ${String(code ?? signal)}`);
      });
    });
    await output.close();
    const failure = await Promise.race([ended, becomesReady(cluster, child)]);
    if (failure === undefined && child.pid !== undefined) return { child, pid: child.pid, port };
    const words = (await readFile(logFile, 'utf8').catch(() => '')).trim().split('\n').slice(-6).join('\n  ');
    if (/could not (bind|create any TCP)/.test(words) && attempt < PORT_ATTEMPTS) continue;
    throw new Error(`The embedded PostgreSQL in ${dataFolder} did not start: ${failure ?? 'no process'}\n  ${words}`);
  }
}

function serverFlags(port: number, durable: boolean): string[] {
  const settings = {
    port: String(port),
    listen_addresses: '127.0.0.1',
    unix_socket_directories: '',
    // Short aggregates are 1.8 to 3 times slower with workers, and never long enough for compiled code.
    max_parallel_workers_per_gather: '0',
    jit: 'off',
    // For one service on one machine; a standby is made from a cold copy.
    ...(durable ? {} : { fsync: 'off', synchronous_commit: 'off', full_page_writes: 'off' }),
  };
  return Object.entries(settings).flatMap(([name, value]) => ['-c', `${name}=${value}`]);
}

/** Resolves to undefined once connections are taken, or to what went wrong. */
async function becomesReady(cluster: string, child: ChildProcess): Promise<string | undefined> {
  const deadline = Date.now() + START_PATIENCE_MS;
  while (Date.now() < deadline) {
    const found = await readPidFile(cluster);
    if (found !== undefined && found.pid === child.pid && found.ready) return undefined;
    if (child.exitCode !== null || child.signalCode !== null) return 'it ended at once';
    await pause(10);
  }
  child.kill('SIGQUIT');
  return `it was not ready after ${String(START_PATIENCE_MS / 1000)} s`;
}

function as(account: ServerAccount): { uid?: number; gid?: number } {
  return account === undefined ? {} : { uid: account.uid, gid: account.gid };
}

/** Nothing of ours is for the server, and PG... variables of the person who runs it would mislead it. */
function plainEnvironment(): NodeJS.ProcessEnv {
  return { PATH: '/usr/local/bin:/usr/bin:/bin', LC_ALL: 'C', TZ: 'UTC' };
}

function freePort(): Promise<number> {
  return new Promise((resolve, reject) => {
    const probe = createServer();
    probe.once('error', reject);
    probe.listen(0, '127.0.0.1', () => {
      const address = probe.address();
      const port = typeof address === 'object' && address !== null ? address.port : 0;
      probe.close(() => {
        resolve(port);
      });
    });
  });
}

function lastWords(error: unknown): string {
  const stderr = typeof error === 'object' && error !== null && 'stderr' in error ? String(error.stderr) : '';
  return stderr.trim().split('\n').slice(-4).join('\n  ') || String(error);
}
