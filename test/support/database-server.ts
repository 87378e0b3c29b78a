import { randomBytes } from 'node:crypto';
import { existsSync } from 'node:fs';
import { chmod, mkdir, readFile, rename, rmdir, writeFile } from 'node:fs/promises';
import { connect } from 'node:net';
import { join } from 'node:path';
import { setTimeout as pause } from 'node:timers/promises';
import { bootstrap, type DatabaseUrls, type Passwords } from '#api/database/bootstrap.js';
import { connected } from '#api/database/connected.js';
import { startEmbeddedServer } from '#api/database/embedded-server.js';
import { migrate } from '#api/database/migrate.js';

/** One server for a whole test run, whichever worker was first to need it. Kept as a file for all workers to read. */
export interface DatabaseServer extends DatabaseUrls {
  readonly kind: 'given' | 'container' | 'embedded';
  readonly adminUrl: string;
  /** The migrated database that each test file gets a clone of; the clones' names begin with it. */
  readonly template: string;
  readonly passwords: Passwords;
  /** Of the embedded server; the teardown stops it. */
  readonly pid: number | null;
  readonly containerId: string | null;
  readonly socketPath: string | null;
}

export const START_PATIENCE_MS = 180_000;
/** Where testcontainers looks too. An engine on another machine is not tried. */
const DOCKER_SOCKET = /^unix:\/\/(.+)/.exec(process.env['DOCKER_HOST'] ?? '')?.[1] ?? '/var/run/docker.sock';

/** The run's server, started now if no test file has needed it before. */
export async function databaseServer(): Promise<DatabaseServer> {
  const folder = process.env['ROUNDBOOK_TEST_RUN'];
  if (folder === undefined) throw new Error('jest.config.js must name test/support/global-setup.cjs as globalSetup');
  const stateFile = join(folder, 'server.json');
  const deadline = Date.now() + START_PATIENCE_MS;
  while (!existsSync(stateFile)) {
    if (Date.now() > deadline) throw new Error('the test database was not started in time by another worker');
    // A folder is made by exactly one of those that try.
    const mine = await mkdir(join(folder, 'starting')).then(
      () => true,
      () => false,
    );
    if (!mine) {
      await pause(50);
      continue;
    }
    try {
      if (!existsSync(stateFile)) await start(folder, stateFile);
    } finally {
      await rmdir(join(folder, 'starting'));
    }
  }
  const server: DatabaseServer = JSON.parse(await readFile(stateFile, 'utf8'));
  return server;
}

async function start(folder: string, stateFile: string): Promise<void> {
  const server = await find(folder);
  await migrate(server.ownerUrl);
  await connected(server.ownerUrl, (owner) => owner.query('vacuum analyze'));
  await writeFile(`${stateFile}.new`, JSON.stringify(server));
  await rename(`${stateFile}.new`, stateFile);
}

async function find(folder: string): Promise<DatabaseServer> {
  const template = `roundbook_test_${randomBytes(4).toString('hex')}`;
  const none = { pid: null, containerId: null, socketPath: null };
  const given = process.env['DATABASE_URL'];
  if (given !== undefined && given !== '') {
    say(`tests run on the server that DATABASE_URL names (${new URL(given).host})`);
    const passwords = { owner: 'roundbook tests', service: 'roundbook tests' };
    const urls = await bootstrap(given, template, passwords);
    return { kind: 'given', adminUrl: given, template, passwords, ...urls, ...none };
  }
  if (await answers(DOCKER_SOCKET)) {
    const container = await startContainer();
    if (container !== undefined) {
      say('tests run on PostgreSQL in a container');
      const passwords = newPasswords();
      const urls = await bootstrap(container.adminUrl, template, passwords);
      return { kind: 'container', template, passwords, ...urls, ...none, ...container };
    }
  }
  const dataFolder = join(folder, 'data');
  const { adminUrl, pid } = await startEmbeddedServer({ dataFolder, durable: false, stopOnExit: false });
  await chmod(folder, 0o711);
  say(`tests run on an embedded PostgreSQL in ${dataFolder}`);
  const passwords = newPasswords();
  const urls = await bootstrap(adminUrl, template, passwords);
  return { kind: 'embedded', adminUrl, template, passwords, ...urls, ...none, pid };
}

interface Container {
  readonly adminUrl: string;
  readonly containerId: string;
  readonly socketPath: string;
}

/** Undefined where an engine answers but cannot bring the image. */
async function startContainer(): Promise<Container | undefined> {
  // Loaded only here: it is slow to load, and most machines never come this far.
  const { PostgreSqlContainer } = await import('@testcontainers/postgresql');
  try {
    const container = await new PostgreSqlContainer('postgres:18-alpine').withUsername('postgres').start();
    return { adminUrl: container.getConnectionUri(), containerId: container.getId(), socketPath: DOCKER_SOCKET };
  } catch (error) {
    say(`no container (${error instanceof Error ? error.message : String(error)}), so the embedded server is used`);
    return undefined;
  }
}

/** Whether somebody listens there; never waits. */
function answers(socketPath: string): Promise<boolean> {
  if (!existsSync(socketPath)) return Promise.resolve(false);
  return new Promise((resolve) => {
    const socket = connect(socketPath);
    socket.once('connect', () => {
      socket.destroy();
      resolve(true);
    });
    socket.once('error', () => {
      resolve(false);
    });
  });
}

function newPasswords(): Passwords {
  return { owner: randomBytes(16).toString('hex'), service: randomBytes(16).toString('hex') };
}

function say(line: string): void {
  process.stderr.write(`${line}\n`);
}
