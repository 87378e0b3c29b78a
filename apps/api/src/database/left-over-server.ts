import { realpath, rm } from 'node:fs/promises';
import { join } from 'node:path';
import { connected } from './connected.js';
import { readPidFile } from './pid-file.js';
import { isRunning, processesIn, waitUntilGone } from './running-process.js';

const STOP_PATIENCE_MS = 20_000;

/**
 * Stops the server that a killed process left on this folder. Nobody else uses it: the folder is locked. Only a process
 * that is proven to be this folder's server is touched.
 */
export async function stopLeftOver(
  cluster: string,
  adminUrlAt: (port: number) => string,
  log: (line: string) => void,
): Promise<void> {
  const found = await readPidFile(cluster);
  if (found === undefined) return;
  const here = await processesIn(cluster);
  if (here?.length === 0) {
    // Its processes are all gone, and so is what the file guards. PostgreSQL would see that too, unless the number has
    // meanwhile gone to another process of the same account.
    await rm(join(cluster, 'postmaster.pid'), { force: true });
    return;
  }
  if (!(await isRunning(found.pid))) {
    // The server was killed itself and its helpers are on their way out.
    for (const pid of here ?? []) await waitUntilGone(pid, STOP_PATIENCE_MS);
    return;
  }
  if (here === undefined ? !(await answersAs(cluster, adminUrlAt(found.port))) : !here.includes(found.pid)) {
    throw new Error(
      `${join(cluster, 'postmaster.pid')} names process ${String(found.pid)}, which runs but is not this folder's server. ` +
        'If no PostgreSQL uses the folder, remove that file.',
    );
  }
  log(`stopping the database server that an earlier run left behind (process ${String(found.pid)})`);
  process.kill(found.pid, 'SIGINT');
  if (await waitUntilGone(found.pid, STOP_PATIENCE_MS)) return;
  process.kill(found.pid, 'SIGQUIT');
  if (await waitUntilGone(found.pid, STOP_PATIENCE_MS)) return;
  throw new Error(`The left-over database server (process ${String(found.pid)}) does not stop.`);
}

/** For systems that do not tell where a process works: our password and our folder prove it to be ours. */
async function answersAs(cluster: string, adminUrl: string): Promise<boolean> {
  try {
    return await connected(adminUrl, async (admin) => {
      const { rows } = await admin.query<{ folder: string }>(`select current_setting('data_directory') as folder`);
      return rows[0] !== undefined && (await realpath(rows[0].folder)) === cluster;
    });
  } catch {
    return false;
  }
}
