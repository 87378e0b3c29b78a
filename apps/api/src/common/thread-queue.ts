import { extname } from 'node:path';
import { Worker } from 'node:worker_threads';

/** Sources are run as they stand in development and in tests; a thread does not take that from a parent that Jest reads. */
const ENDING = extname(import.meta.url);
const FROM_SOURCE = ['--conditions=source', '--import', '@swc-node/register/esm-register'];

/**
 * Work that takes long, each piece on a thread of its own, one after the other, so that requests are answered in the
 * meantime and a queue never takes more than one core.
 */
export class ThreadQueue<Given, Answer> {
  private last: Promise<unknown> = Promise.resolve();
  private worker: Worker | null = null;
  private isClosing = false;

  /** @param program - a file that answers its worker data with one message, without its ending */
  constructor(private readonly program: URL) {}

  /** @returns null when the queue is closed before it is done; rejects with whatever the thread threw */
  run(given: Given): Promise<Answer | null> {
    const answered = this.last.then(() => (this.isClosing ? null : this.onThread(given)));
    this.last = answered.catch(() => undefined);
    return answered;
  }

  /** What is under way is given up. */
  async close(): Promise<void> {
    this.isClosing = true;
    await this.worker?.terminate();
    await this.last;
  }

  private onThread(given: Given): Promise<Answer | null> {
    const execArgv = ENDING === '.ts' ? { execArgv: FROM_SOURCE } : {};
    const worker = new Worker(new URL(`${this.program.href}${ENDING}`), { workerData: given, ...execArgv });
    this.worker = worker;
    return new Promise<Answer | null>((resolve, reject) => {
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
