import { spawn, type ChildProcess } from 'node:child_process';
import { once } from 'node:events';
import { access, mkdir, mkdtemp, readFile, readdir, rm, stat, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { Client } from 'pg';
import { readSettings } from '#api/config/settings.js';
import { connected } from '#api/database/connected.js';
import { mendBinaries } from '#api/database/embedded-binaries.js';
import { startEmbeddedServer, type EmbeddedServer } from '#api/database/embedded-server.js';
import { joinDatabase } from '#api/database/open-database.js';
import { isRunning, waitUntilGone } from '#api/database/running-process.js';

const PATIENCE_MS = 20_000;
jest.setTimeout(60_000);

let folder: string;
let running: EmbeddedServer | undefined;
let lines: string[];

beforeAll(async () => {
  folder = await mkdtemp(join(tmpdir(), 'roundbook-embedded-'));
});
beforeEach(() => {
  lines = [];
});
afterEach(async () => {
  await running?.stop();
  running = undefined;
});
afterAll(() => rm(folder, { recursive: true, force: true }));

async function start(options: { dataFolder?: string; mayRelocate?: boolean } = {}): Promise<EmbeddedServer> {
  running = await startEmbeddedServer({
    dataFolder: folder,
    durable: false,
    log: (line) => lines.push(line),
    ...options,
  });
  return running;
}

interface Parent {
  readonly process: ChildProcess;
  readonly serverPid: number;
}

/** A server whose process is another one than this. */
async function startElsewhere(ending: 'wait' | 'exit' | 'throw' | 'own handler'): Promise<Parent> {
  const flags = ['--conditions=source', '--import', '@swc-node/register/esm-register'];
  const process_ = spawn(process.execPath, [...flags, 'test/support/serve-database.ts', folder, ending], {
    stdio: ['ignore', 'pipe', 'ignore'],
  });
  const [said]: unknown[] = await once(process_.stdout, 'data');
  return { process: process_, serverPid: Number(String(said)) };
}

async function ended(parent: ChildProcess): Promise<void> {
  if (parent.exitCode === null && parent.signalCode === null) await once(parent, 'exit');
}

it('makes a database on an empty folder, whose passwords only its owner reads', async () => {
  const server = await start();
  await connected(server.ownerUrl, async (owner) => {
    await owner.query('create table kept as select 42 as answer');
    const { rows } = await owner.query(`select rolname, rolsuper, rolbypassrls, rolcreaterole, rolcreatedb from pg_roles
                                         where rolname like 'roundbook%' order by 1`);
    const plain = { rolsuper: false, rolbypassrls: false, rolcreaterole: false, rolcreatedb: false };
    expect(rows).toEqual([
      { rolname: 'roundbook_owner', ...plain },
      { rolname: 'roundbook_service', ...plain },
    ]);
  });
  await connected(server.serviceUrl, async (service) => {
    const { rows } = await service.query<{ name: string }>('select current_user as name');
    expect(rows).toEqual([{ name: 'roundbook_service' }]);
  });
  expect((await stat(join(folder, 'passwords.json'))).mode & 0o777).toBe(0o600);
  expect((await stat(join(folder, 'postgres'))).mode & 0o777).toBe(0o700);
  expect(server.adminUrl).toContain('@127.0.0.1:');
});

it('has the data, roles and passwords again at the next start', async () => {
  const before = await readFile(join(folder, 'passwords.json'), 'utf8');
  const server = await start();
  const rows = await connected(
    server.ownerUrl,
    async (owner) => (await owner.query<{ answer: number }>('select answer from kept')).rows,
  );
  expect(rows).toEqual([{ answer: 42 }]);
  expect(await readFile(join(folder, 'passwords.json'), 'utf8')).toBe(before);
  await server.stop();
  await server.stop();
  expect(await isRunning(server.pid)).toBe(false);
});

it('lets in nobody without the password', async () => {
  const { ownerUrl } = await start();
  const url = new URL(ownerUrl);
  url.password = 'guess';
  await expect(connected(url.href, () => Promise.resolve())).rejects.toMatchObject({ code: '28P01' });
});

it('refuses a folder that another server of this program uses, and leaves that one alone', async () => {
  const server = await start();
  await expect(startEmbeddedServer({ dataFolder: folder })).rejects.toThrow(`in use by process ${String(process.pid)}`);
  await connected(server.ownerUrl, (owner) => owner.query('select'));
});

it('lets a command join the server of a running service, which goes on when the command has ended', async () => {
  const server = await start();
  const settings = readSettings({ DATA_DIR: folder });
  const joined = await joinDatabase(settings, () => undefined);
  expect(joined).toMatchObject({ ownerUrl: server.ownerUrl, serviceUrl: server.serviceUrl, folder: server.dataFolder });
  await joined.close();
  await connected(server.ownerUrl, (owner) => owner.query('select'));
});

it('stops what a killed process left behind, and goes on with the data', async () => {
  const parent = await startElsewhere('wait');
  parent.process.kill('SIGKILL');
  await ended(parent.process);
  expect(await isRunning(parent.serverPid)).toBe(true);

  const server = await start();
  expect(lines).toEqual([expect.stringContaining(`process ${String(parent.serverPid)}`)]);
  expect(await isRunning(parent.serverPid)).toBe(false);
  const rows = await connected(
    server.ownerUrl,
    async (owner) => (await owner.query<{ answer: number }>('select answer from kept')).rows,
  );
  expect(rows).toEqual([{ answer: 42 }]);
});

it('recovers when the server itself was killed too', async () => {
  const parent = await startElsewhere('wait');
  parent.process.kill('SIGKILL');
  process.kill(parent.serverPid, 'SIGKILL');
  await ended(parent.process);
  await waitUntilGone(parent.serverPid, PATIENCE_MS);
  const server = await start();
  await connected(server.ownerUrl, (owner) => owner.query('select from kept'));
});

it.each([
  { ending: 'wait', signal: 'SIGTERM' },
  { ending: 'wait', signal: 'SIGINT' },
  { ending: 'wait', signal: 'SIGHUP' },
  { ending: 'own handler', signal: 'SIGTERM' },
  { ending: 'exit', signal: 'no signal' },
  { ending: 'throw', signal: 'no signal' },
] as const)('leaves no server behind when its process ends by: $ending, $signal', async ({ ending, signal }) => {
  const parent = await startElsewhere(ending);
  if (signal !== 'no signal') parent.process.kill(signal);
  await ended(parent.process);
  expect(await waitUntilGone(parent.serverPid, PATIENCE_MS)).toBe(true);
  expect(await readdir(folder)).not.toContain('in-use.json');
});

it('tells a lock file of its own past from a process that now has that number, and touches no such process', async () => {
  const bystander = spawn('sleep', ['60']);
  try {
    await once(bystander, 'spawn');
    const stale = [String(bystander.pid), join(folder, 'postgres'), '0', '1', '', '127.0.0.1', '0', 'ready'].join('\n');
    await writeFile(join(folder, 'postgres', 'postmaster.pid'), stale);
    await writeFile(join(folder, 'in-use.json'), JSON.stringify({ pid: bystander.pid, started: '1' }));
    const server = await start();
    await connected(server.ownerUrl, (owner) => owner.query('select'));
    expect(await isRunning(bystander.pid ?? 0)).toBe(true);
  } finally {
    bystander.kill('SIGKILL');
  }
});

it('begins anew where an earlier first start was cut off', async () => {
  const dataFolder = await mkdtemp(join(tmpdir(), 'roundbook-embedded-'));
  try {
    await mkdir(join(dataFolder, 'postgres.new', 'cluster'), { recursive: true });
    await mkdir(join(dataFolder, 'postgres'));
    const server = await start({ dataFolder });
    await connected(server.ownerUrl, (owner) => owner.query('select'));
    await server.stop();
    expect(await readdir(dataFolder)).not.toContain('postgres.new');
  } finally {
    await rm(dataFolder, { recursive: true, force: true });
  }
});

it('says what is wrong when the passwords are gone, and when the server does not start', async () => {
  const passwords = join(folder, 'passwords.json');
  const kept = await readFile(passwords, 'utf8');
  await rm(passwords);
  await expect(start()).rejects.toThrow('passwords.json is missing');
  await writeFile(passwords, kept, { mode: 0o600 });

  const settings = join(folder, 'postgres', 'postgresql.auto.conf');
  const auto = await readFile(settings, 'utf8');
  await writeFile(settings, 'shared_buffers = nonsense\n');
  await expect(start()).rejects.toThrow(/did not start: it ended with 1[^]*shared_buffers/);
  await writeFile(settings, auto);
  await start();
});

it('makes up for what an install without scripts leaves out', async () => {
  const package_ = await mkdtemp(join(tmpdir(), 'roundbook-embedded-'));
  try {
    const native = join(package_, 'native');
    for (const part of ['bin', 'lib']) await mkdir(join(native, part), { recursive: true });
    const link = { source: 'native/lib/libsome.so.60.2', target: 'native/lib/libsome.so.60' };
    await writeFile(join(native, 'pg-symlinks.json'), JSON.stringify([link]));
    await writeFile(join(package_, link.source), 'library');
    for (const binary of ['postgres', 'initdb']) await writeFile(join(native, 'bin', binary), '', { mode: 0o644 });
    await mendBinaries(native);
    await mendBinaries(native);
    expect(await readFile(join(package_, link.target), 'utf8')).toBe('library');
    await access(join(native, 'bin', 'postgres'), 1);
  } finally {
    await rm(package_, { recursive: true, force: true });
  }
});

// Only root runs the server under another account, which may then be shut out.
const asRoot = process.getuid?.() === 0 ? it : it.skip;

asRoot('says which folder is closed to the account of the server, or takes another where it may', async () => {
  const home = await mkdtemp(join(tmpdir(), 'roundbook-embedded-'));
  const dataFolder = join(home, 'data');
  try {
    await expect(start({ dataFolder })).rejects.toThrow(`cannot enter ${dataFolder}`);
    const server = await start({ dataFolder, mayRelocate: true });
    expect(server.dataFolder).toMatch(/^\/var\/lib\/roundbook\//);
    expect(lines).toEqual([expect.stringContaining(server.dataFolder)]);
    await server.stop();
    await rm(server.dataFolder, { recursive: true, force: true });
  } finally {
    await rm(home, { recursive: true, force: true });
  }
});

it('ends sessions that are still open when it stops', async () => {
  const server = await start();
  const idle = new Client({ connectionString: server.ownerUrl });
  const told: string[] = [];
  idle.on('error', ({ message }) => told.push(message));
  const broke = new Promise((resolve) => idle.once('end', resolve));
  await idle.connect();
  await server.stop();
  expect(await isRunning(server.pid)).toBe(false);
  await broke;
  expect(told[0]).toContain('administrator command');
});
