import { Injectable } from '@nestjs/common';
import type { ClanDatabase } from '../../database/clan-transaction.js';

/** What a result that was entered, corrected or taken back did to an event. */
export interface MatchResultNotice {
  readonly eventId: string;
  readonly matchId: string;
  readonly winnerEntrantId: string | null;
  /** Matches whose players changed with it. */
  readonly movedMatchIds: readonly string[];
  /** Matches whose results were taken back with it. */
  readonly droppedMatchIds: readonly string[];
}

export type MatchResultListener = (db: ClanDatabase, notice: MatchResultNotice) => Promise<void>;

/**
 * Tells whoever wants to know of results, inside the transaction that writes them: what a listener writes is committed with
 * the result or not at all.
 */
@Injectable()
export class MatchResultNotices {
  private readonly listeners: MatchResultListener[] = [];

  listen(listener: MatchResultListener): void {
    this.listeners.push(listener);
  }

  async tell(db: ClanDatabase, notice: MatchResultNotice): Promise<void> {
    for (const listener of this.listeners) await listener(db, notice);
  }
}
