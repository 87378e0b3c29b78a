import type { ChildProcess } from 'node:child_process';
import { rmSync } from 'node:fs';
import { rm } from 'node:fs/promises';
import { setTimeout as pause } from 'node:timers/promises';

const STOP_PATIENCE_MS = 20_000;
const SIGNALS = ['SIGINT', 'SIGTERM', 'SIGHUP'] as const;

/**
 * Returns the function that stops the server, and sees to it that no way out of this process leaves the server behind
 * but SIGKILL. A program that handles a signal itself stops the server itself, after its requests; the last net is the
 * process's `exit`, which also follows an uncaught error.
 */
export function serverStopper(child: ChildProcess, lock: string, stopOnExit: boolean): () => Promise<void> {
  let stopping: Promise<void> | undefined;

  const onExit = (): void => {
    // No time to wait: a fast shutdown that goes on by itself. A next start waits for it.
    child.kill('SIGINT');
    rmSync(lock, { force: true });
  };
  const onSignal = (signal: NodeJS.Signals): void => {
    if (process.listenerCount(signal) > 1) return;
    void stop().finally(() => process.kill(process.pid, signal));
  };
  const stop = (): Promise<void> => {
    stopping ??= (async () => {
      await stopChild(child);
      await rm(lock, { force: true });
      process.off('exit', onExit);
      for (const signal of SIGNALS) process.off(signal, onSignal);
    })();
    return stopping;
  };

  if (stopOnExit) {
    process.on('exit', onExit);
    for (const signal of SIGNALS) process.on(signal, onSignal);
  } else child.unref();
  return stop;
}

async function stopChild(child: ChildProcess): Promise<void> {
  if (child.exitCode !== null || child.signalCode !== null) return;
  const ended = new Promise<true>((resolve) =>
    child.once('exit', () => {
      resolve(true);
    }),
  );
  child.kill('SIGINT');
  const timer = new AbortController();
  const late = pause(STOP_PATIENCE_MS, false, { signal: timer.signal }).catch(() => false);
  if (!(await Promise.race([ended, late]))) {
    child.kill('SIGQUIT');
    await ended;
  }
  timer.abort();
}
