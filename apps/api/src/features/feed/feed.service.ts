import { Injectable } from '@nestjs/common';
import { page } from '../../common/page.dto.js';
import { ApiError } from '../../common/problems.js';
import { found } from '../../common/resources.js';
import { ClanTransactions, type ClanDatabase } from '../../database/clan-transaction.js';
import type { Credential } from '../access/credential.js';
import type { FeedEntryResponse, FeedPage, FeedQuery } from './feed.dto.js';
import { FeedRepository, type FeedSource } from './feed.repository.js';

/** For whoever tells the same in another way. */
export { FEED_KINDS } from './feed.dto.js';
export type { FeedSource } from './feed.repository.js';

/** Where a reader stands in a feed. */
export interface FeedPosition {
  readonly source: FeedSource;
  /** Number of the last entry that the reader has, or is to be taken to have. */
  readonly after: number;
}

/** As many as are read at a time for a stream. */
export const STREAMED_AT_A_TIME = 200;

/** What changed in the brackets of the clan, or in one event that it may see. */
@Injectable()
export class FeedService {
  constructor(
    private readonly transactions: ClanTransactions,
    private readonly repository: FeedRepository,
  ) {}

  list(credential: Credential, { after = 0, limit, eventId }: FeedQuery): Promise<FeedPage> {
    return this.transactions.run(credential, 'read', async (db) => {
      const source = await this.sourceOf(db, eventId);
      await this.requireKept(db, { source, after });
      const entries = await this.repository.after(db, source, after, limit + 1);
      return page(entries, limit, ({ sequence }) => String(sequence));
    });
  }

  /**
   * Where a stream begins: behind what the client has, or, for one that has nothing yet, now.
   *
   * @throws ApiError `feed.position_gone` when what follows is not all kept any more
   */
  position(credential: Credential, eventId: string | undefined, has: number | null): Promise<FeedPosition> {
    return this.transactions.run(credential, 'read', async (db) => {
      const source = await this.sourceOf(db, eventId);
      const position = { source, after: has ?? (await this.repository.newest(db, source)) };
      await this.requireKept(db, position);
      return position;
    });
  }

  /** What came after that, under the reader's rights as they are now. */
  since(credential: Credential, { source, after }: FeedPosition): Promise<FeedEntryResponse[]> {
    return this.transactions.run(credential, 'read', async (db) => {
      if (source.eventId !== null) found(await this.repository.ownerOf(db, source.eventId), 'event');
      return this.repository.after(db, source, after, STREAMED_AT_A_TIME);
    });
  }

  /** @throws ApiError `resource.not_found` for an event that the reader may not see */
  async sourceOf(db: ClanDatabase, eventId: string | null | undefined): Promise<FeedSource> {
    if (eventId === undefined || eventId === null) return { clanId: db.clanId, eventId: null };
    return { clanId: found(await this.repository.ownerOf(db, eventId), 'event'), eventId };
  }

  private async requireKept(db: ClanDatabase, { source, after }: FeedPosition): Promise<void> {
    if (after === 0 || (await this.repository.keeps(db, source, after))) return;
    throw new ApiError(
      'feed.position_gone',
      `entry ${after} is not kept any more: read the bracket, and follow from now`,
    );
  }
}
