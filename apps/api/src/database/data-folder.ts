import { execFile } from 'node:child_process';
import { createHash, randomBytes } from 'node:crypto';
import { chmod, chown, link, mkdir, readFile, realpath, rename, rm, stat, writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import { promisify } from 'node:util';
import { errorCode } from './error-code.js';
import { exists } from './exists.js';
import { markOf, stillRuns, type ProcessMark } from './running-process.js';
import type { ServerAccount } from './server-account.js';

const run = promisify(execFile);

/** Others may pass through the data folder, where the cluster inside belongs to another account, but list nothing. */
const PASS_THROUGH = 0o011;

export interface DataFolderOptions {
  readonly dataFolder: string;
  /** Whether another folder may be taken where the server's account cannot reach this one. */
  readonly mayRelocate?: boolean;
}

/** The cluster itself, below the data folder. */
export function clusterIn(dataFolder: string): string {
  return join(dataFolder, 'postgres');
}

/** Makes the folder and sees to it that the server's account gets there. */
export async function openDataFolder(
  { dataFolder, mayRelocate = false }: DataFolderOptions,
  account: ServerAccount,
  log: (line: string) => void,
): Promise<string> {
  const wanted = await makeFolder(dataFolder, account);
  if (account === undefined || (await canWork(clusterIn(wanted), account))) return wanted;
  if (mayRelocate) {
    const name = createHash('sha256').update(wanted).digest('hex').slice(0, 12);
    const other = await makeFolder(`/var/lib/roundbook/${name}`, account);
    if (await canWork(clusterIn(other), account)) {
      log(`${wanted} lies in a folder that only root may enter; the database is in ${other} instead`);
      return other;
    }
  }
  throw new Error(
    `The user "${account.name}", under whom PostgreSQL runs when the service is root, cannot enter ${wanted}: ` +
      'a folder on the way is closed to it. Set DATA_DIR to a folder that it can enter, such as /var/lib/roundbook.',
  );
}

async function makeFolder(folder: string, account: ServerAccount): Promise<string> {
  const cluster = clusterIn(folder);
  await mkdir(folder, { recursive: true, mode: account === undefined ? 0o700 : 0o700 | PASS_THROUGH });
  await mkdir(cluster, { recursive: true, mode: 0o700 });
  if (account !== undefined) {
    await chown(cluster, account.uid, account.gid);
    await chmod(folder, (await stat(folder)).mode | PASS_THROUGH);
  }
  return realpath(folder);
}

async function canWork(cluster: string, { uid, gid }: NonNullable<ServerAccount>): Promise<boolean> {
  try {
    await run('/bin/sh', ['-c', 'cd "$1" && test -w .', 'sh', cluster], { uid, gid, cwd: '/' });
    return true;
  } catch {
    return false;
  }
}

/** Another process serves the folder. */
export class FolderInUse extends Error {
  override readonly name = 'FolderInUse';

  constructor(
    readonly dataFolder: string,
    pid: number,
  ) {
    super(`${dataFolder} is in use by process ${String(pid)}. Stop it, or choose another DATA_DIR.`);
  }
}

/**
 * Takes the folder for this process. A lock whose process is gone counts for nothing.
 *
 * @throws FolderInUse
 */
export async function lockFolder(dataFolder: string): Promise<string> {
  const lock = join(dataFolder, 'in-use.json');
  const mine = `${lock}.${String(process.pid)}`;
  await writeFile(mine, JSON.stringify(await markOf(process.pid)), { mode: 0o600 });
  try {
    for (let attempt = 0; attempt < 3; attempt += 1) {
      // A link appears with its contents or not at all, so nobody reads a lock that is only half written.
      const taken = await link(mine, lock).then(() => true, unlessThere);
      if (taken) return lock;
      const holder = parseMark(await readFile(lock, 'utf8').catch(() => ''));
      if (holder !== undefined && (await stillRuns(holder))) throw new FolderInUse(dataFolder, holder.pid);
      await rm(lock, { force: true });
    }
    throw new Error(`${lock} could not be taken: another process keeps taking it.`);
  } finally {
    await rm(mine, { force: true });
  }
}

function unlessThere(error: unknown): false {
  if (errorCode(error) !== 'EEXIST') throw error;
  return false;
}

function parseMark(text: string): ProcessMark | undefined {
  const value = parseJson(text);
  if (typeof value !== 'object' || value === null || !('pid' in value) || !('started' in value)) return undefined;
  const { pid, started } = value;
  if (typeof pid !== 'number' || (typeof started !== 'string' && started !== null)) return undefined;
  return { pid, started };
}

export interface ServerPasswords {
  readonly admin: string;
  readonly owner: string;
  readonly service: string;
}

/** Made up once and kept beside the data, for this account's eyes only. */
export async function readPasswords(dataFolder: string): Promise<ServerPasswords> {
  const file = join(dataFolder, 'passwords.json');
  const kept = parseJson(await readFile(file, 'utf8').catch(() => ''));
  if (typeof kept === 'object' && kept !== null && 'admin' in kept && 'owner' in kept && 'service' in kept) {
    const { admin, owner, service } = kept;
    if (typeof admin === 'string' && typeof owner === 'string' && typeof service === 'string') {
      return { admin, owner, service };
    }
  }
  if (await exists(join(clusterIn(dataFolder), 'PG_VERSION'))) {
    throw new Error(`${file} is missing or damaged, and without it the database beside it cannot be opened.`);
  }
  const made = { admin: password(), owner: password(), service: password() };
  await writeFile(`${file}.new`, JSON.stringify(made), { mode: 0o600 });
  await rename(`${file}.new`, file);
  return made;
}

function password(): string {
  return randomBytes(24).toString('base64url');
}

function parseJson(text: string): unknown {
  try {
    return JSON.parse(text);
  } catch {
    return undefined;
  }
}
