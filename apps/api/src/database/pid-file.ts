import { readFile } from 'node:fs/promises';
import { join } from 'node:path';

export interface PidFile {
  readonly pid: number;
  readonly port: number;
  readonly ready: boolean;
}

/** PostgreSQL's own lock file: pid, folder, start time, port, socket folder, address, shared memory, state. */
export async function readPidFile(cluster: string): Promise<PidFile | undefined> {
  const text = await readFile(join(cluster, 'postmaster.pid'), 'utf8').catch(() => undefined);
  const lines = text?.split('\n') ?? [];
  const pid = Number(lines[0]);
  if (!Number.isInteger(pid) || pid <= 0) return undefined;
  return { pid, port: Number(lines[3]), ready: lines[7]?.trim() === 'ready' };
}
