import { once } from 'node:events';
import type { ServerResponse } from 'node:http';
import type { FeedEntryResponse } from './feed.dto.js';

/** How long a client waits before it connects anew, told to it in milliseconds. */
const RECONNECT_AFTER_MS = 3_000;

/**
 * One client's server-sent events (HTML Living Standard, section 9.2).
 *
 * It begins by telling the client where it stands, in an id without data: that sets what the client sends as Last-Event-ID
 * when it connects anew, so that nothing is lost even before the first entry.
 */
export class FeedStream {
  private reading = false;
  private more = false;

  /** @param read - what came after an entry, as many as are read at a time; throws what ends the stream */
  constructor(
    private readonly response: ServerResponse,
    private after: number,
    private readonly read: (after: number) => Promise<readonly FeedEntryResponse[]>,
  ) {}

  open(): void {
    this.response
      .writeHead(200, {
        'Content-Type': 'text/event-stream; charset=utf-8',
        'Cache-Control': 'no-store',
        // Read by proxies that would otherwise hold back what does not fill their buffer.
        'X-Accel-Buffering': 'no',
      })
      .write(`retry: ${RECONNECT_AFTER_MS}\nid: ${this.after}\n\n`);
  }

  /** Sends whatever is new. Called while it does so already, it looks once more afterwards. */
  async wake(): Promise<void> {
    this.more = true;
    if (this.reading) return;
    this.reading = true;
    try {
      while (this.more && !this.response.writableEnded && !this.response.destroyed) {
        this.more = false;
        for (const entry of await this.read(this.after)) {
          this.more = true;
          await this.send(entry);
        }
      }
    } finally {
      this.reading = false;
    }
  }

  /** A comment, so that neither proxies nor a client take the connection for dead. */
  keepAlive(): void {
    this.response.write(':\n\n');
  }

  end(): void {
    this.response.end();
  }

  private async send({ sequence, kind, at, eventId, matchIds }: FeedEntryResponse): Promise<void> {
    const data = JSON.stringify({ sequence, kind, at, eventId, matchIds });
    const room = this.response.write(`id: ${sequence}\nevent: ${kind}\ndata: ${data}\n\n`);
    this.after = sequence;
    if (!room && !this.response.destroyed)
      await Promise.race([once(this.response, 'drain'), once(this.response, 'close')]);
  }
}
