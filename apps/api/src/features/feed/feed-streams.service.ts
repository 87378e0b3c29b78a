import { Injectable, Logger, type BeforeApplicationShutdown } from '@nestjs/common';
import type { Response } from 'express';
import { ApiError } from '../../common/problems.js';
import type { Credential } from '../access/credential.js';
import { FeedStream } from './feed-stream.js';
import { Wakes } from '../../database/wakes.js';
import { FeedService, type FeedPosition } from './feed.service.js';

const KEEP_ALIVE_MS = 15_000;
/** Of one clan's feed at a time, by anybody. */
const MOST_STREAMS = 100;

/** The clients that follow a feed as it goes on. */
@Injectable()
export class FeedStreamsService implements BeforeApplicationShutdown {
  private readonly log = new Logger(FeedStreamsService.name);
  private readonly open = new Set<FeedStream>();

  constructor(
    private readonly feed: FeedService,
    private readonly wakes: Wakes,
  ) {}

  /** Streams until the client leaves, its rights end, or the service does. */
  async follow(credential: Credential, response: Response, position: FeedPosition): Promise<void> {
    const { source } = position;
    if (this.wakes.count(source.clanId) >= MOST_STREAMS) {
      throw new ApiError('server.busy', `a feed is followed by at most ${MOST_STREAMS} at a time`);
    }
    const stream = new FeedStream(response, position.after, (after) => this.feed.since(credential, { source, after }));
    const wake = (): void => {
      stream.wake().catch((error: unknown) => {
        this.log.debug({ feedEnded: error instanceof ApiError ? error.code : String(error) });
        stream.end();
      });
    };
    const sleep = await this.wakes.subscribe(source.clanId, wake);
    const keepAlive = setInterval(() => {
      stream.keepAlive();
      // Rights may have ended, and a wake may have been lost with its connection.
      wake();
    }, KEEP_ALIVE_MS).unref();
    this.open.add(stream);
    response.once('close', () => {
      clearInterval(keepAlive);
      sleep();
      this.open.delete(stream);
    });
    stream.open();
    wake();
  }

  /** Before the server waits for its connections to end. Clients connect anew and lose nothing. */
  beforeApplicationShutdown(): void {
    for (const stream of this.open) stream.end();
  }
}
