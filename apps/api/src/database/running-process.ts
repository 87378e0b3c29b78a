import { readFile, readdir, readlink } from 'node:fs/promises';
import { platform } from 'node:os';
import { setTimeout as pause } from 'node:timers/promises';
import { errorCode } from './error-code.js';

/** A process, told apart from a later one that was given the same number. */
export interface ProcessMark {
  readonly pid: number;
  /** Start time in the kernel's own ticks; null where the system does not tell. */
  readonly started: string | null;
}

export async function markOf(pid: number): Promise<ProcessMark> {
  return { pid, started: (await stat(pid))?.started ?? null };
}

/** Whether that very process still runs. */
export async function stillRuns({ pid, started }: ProcessMark): Promise<boolean> {
  if (!(await isRunning(pid))) return false;
  const now = await stat(pid);
  return started === null || now === undefined || now.started === started;
}

/** Whether some process of that number runs. One that has ended but was never waited for does not. */
export async function isRunning(pid: number): Promise<boolean> {
  try {
    process.kill(pid, 0);
  } catch (error) {
    // EPERM: there is one, of somebody else.
    return errorCode(error) === 'EPERM';
  }
  return (await stat(pid))?.state !== 'Z';
}

/** @returns whether it was gone in time */
export async function waitUntilGone(pid: number, patienceMs: number): Promise<boolean> {
  const deadline = Date.now() + patienceMs;
  while (await isRunning(pid)) {
    if (Date.now() > deadline) return false;
    await pause(20);
  }
  return true;
}

/** Processes that work in a folder, as every process of a PostgreSQL server does; undefined where none can be asked. */
export async function processesIn(folder: string): Promise<number[] | undefined> {
  if (platform() !== 'linux') return undefined;
  const found: number[] = [];
  for (const name of await readdir('/proc')) {
    if (!/^\d+$/.test(name)) continue;
    const at = await readlink(`/proc/${name}/cwd`).catch(() => undefined);
    if (at === folder) found.push(Number(name));
  }
  return found;
}

async function stat(pid: number): Promise<{ state: string; started: string } | undefined> {
  if (platform() !== 'linux') return undefined;
  const text = await readFile(`/proc/${String(pid)}/stat`, 'utf8').catch(() => undefined);
  // The name before the last parenthesis may hold anything; what follows is state (3rd) up to start time (22nd).
  const fields = text?.slice(text.lastIndexOf(')') + 2).split(' ');
  const [state, started] = [fields?.[0], fields?.[19]];
  return state === undefined || started === undefined ? undefined : { state, started };
}
