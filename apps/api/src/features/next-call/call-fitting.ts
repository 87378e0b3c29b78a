import { Injectable, type BeforeApplicationShutdown } from '@nestjs/common';
import type { CallArchive } from '#domain/forecast/live/call-archive.js';
import type { FittedCalls } from '#domain/forecast/live/fit-calls.js';
import { ThreadQueue } from '../../common/thread-queue.js';

/** Fits archives away from the thread that answers requests. */
@Injectable()
export class CallFitting implements BeforeApplicationShutdown {
  private readonly queue = new ThreadQueue<CallArchive, FittedCalls>(new URL('./fit-calls.worker', import.meta.url));

  /** @returns null when the service shuts down before it is done; rejects with whatever the fit threw */
  fit(archive: CallArchive): Promise<FittedCalls | null> {
    return this.queue.run(archive);
  }

  /** Whoever asks next starts anew what is given up. */
  beforeApplicationShutdown(): Promise<void> {
    return this.queue.close();
  }
}
