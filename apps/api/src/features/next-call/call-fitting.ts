import { extname } from 'node:path';
import { Worker } from 'node:worker_threads';
import { Injectable, type BeforeApplicationShutdown } from '@nestjs/common';
import type { CallArchive } from '#domain/forecast/live/call-archive.js';
import type { FittedCalls } from '#domain/forecast/live/fit-calls.js';

/** Sources are run as they stand in development and in tests; a thread does not take that from a parent that Jest reads. */
const ENDING = extname(import.meta.url);
const FROM_SOURCE = ['--conditions=source', '--import', '@swc-node/register/esm-register'];

/**
 * Fits archives on a thread of its own, one after the other, so that requests are answered in the meantime and a queue of
 * fits never takes more than one core.
 */
@Injectable()
export class CallFitting implements BeforeApplicationShutdown {
  private last: Promise<unknown> = Promise.resolve();
  private worker: Worker | null = null;
  private isClosing = false;

  /** @returns null when the service shuts down before it is done; rejects with whatever the fit threw */
  fit(archive: CallArchive): Promise<FittedCalls | null> {
    const fitted = this.last.then(() => (this.isClosing ? null : this.onThread(archive)));
    this.last = fitted.catch(() => undefined);
    return fitted;
  }

  /** A fit that is under way is given up: whoever asks next starts it anew. */
  async beforeApplicationShutdown(): Promise<void> {
    this.isClosing = true;
    await this.worker?.terminate();
    await this.last;
  }

  private onThread(archive: CallArchive): Promise<FittedCalls | null> {
    const execArgv = ENDING === '.ts' ? { execArgv: FROM_SOURCE } : {};
    const worker = new Worker(new URL(`./fit-calls.worker${ENDING}`, import.meta.url), {
      workerData: archive,
      ...execArgv,
    });
    this.worker = worker;
    return new Promise<FittedCalls | null>((resolve, reject) => {
      worker.once('message', resolve);
      worker.once('error', reject);
      // A thread that ended without a word was told to; after a word or an error this changes nothing.
      worker.once('exit', () => {
        resolve(null);
      });
    }).finally(() => {
      this.worker = null;
    });
  }
}
