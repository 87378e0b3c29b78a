import { randomBytes } from 'node:crypto';
import { existsSync } from 'node:fs';
import { chmod } from 'node:fs/promises';
import { connect } from 'node:net';
import { join } from 'node:path';
import { bootstrap, type DatabaseUrls, type Passwords } from '#api/database/bootstrap.js';
import { connected } from '#api/database/connected.js';
import { startEmbeddedServer } from '#api/database/embedded-server.js';
import { migrate } from '#api/database/migrate.js';
import { onceARun, runFolder } from './once-a-run.js';

/** One server for a whole test run. */
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

/** Where testcontainers looks too. An engine on another machine is not tried. */
const DOCKER_SOCKET = /^unix:\/\/(.+)/.exec(process.env['DOCKER_HOST'] ?? '')?.[1] ?? '/var/run/docker.sock';

/** The run's server, started now if no test file has needed it before. */
export function databaseServer(): Promise<DatabaseServer> {
  return onceARun('server', async () => {
    const server = await find(runFolder());
    await migrate(server.ownerUrl);
    await connected(server.ownerUrl, (owner) => owner.query('vacuum analyze'));
    return server;
  });
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
