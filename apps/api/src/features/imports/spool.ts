import { lstat, mkdtemp, readdir, rm } from 'node:fs/promises';
import { hostname, tmpdir } from 'node:os';
import { join } from 'node:path';
import { markOf, stillRuns, type ProcessMark } from '../../database/running-process.js';

/** A folder of one import's own, gone with it. */
export interface Spool {
  readonly folder: string;
  remove(): Promise<void>;
}

/** Stands for a start time that the system does not tell. */
const UNTOLD = '0';
/** Two machines, or two containers, may share a folder for temporary files; neither knows the other's processes. */
const HOST = hostname().replace(/[^A-Za-z0-9.-]/g, '_');
const NAME = /^roundbook-import-(\d+)-(\d+)-(.+)-[A-Za-z0-9]{6}$/;

/** Named after its process, so that a later one can tell whether anybody still writes to it. */
export async function openSpool(under = tmpdir()): Promise<Spool> {
  const { pid, started } = await markOf(process.pid);
  const folder = await mkdtemp(join(under, `roundbook-import-${pid}-${started ?? UNTOLD}-${HOST}-`));
  return { folder, remove: () => rm(folder, { recursive: true, force: true }) };
}

/**
 * Removes what imports left whose process was killed: folders of this user and this machine whose process is gone, and
 * nothing else.
 *
 * @returns the names of the removed folders
 */
export async function sweepSpools(under = tmpdir()): Promise<string[]> {
  const swept: string[] = [];
  for (const name of await readdir(under)) {
    const process = processIn(name);
    if (process === null || (await stillRuns(process))) continue;
    const folder = join(under, name);
    if (!(await isOurs(folder))) continue;
    await rm(folder, { recursive: true, force: true });
    swept.push(name);
  }
  return swept;
}

function processIn(name: string): ProcessMark | null {
  const [, pid, started = UNTOLD, host] = NAME.exec(name) ?? [];
  if (pid === undefined || host !== HOST) return null;
  return { pid: Number(pid), started: started === UNTOLD ? null : started };
}

/** A folder itself, not a link to one, and of the user that we run as. */
async function isOurs(folder: string): Promise<boolean> {
  const found = await lstat(folder).catch(() => undefined);
  return found?.isDirectory() === true && found.uid === (process.getuid?.() ?? found.uid);
}
