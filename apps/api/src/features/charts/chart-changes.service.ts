import { Injectable } from '@nestjs/common';
import type { ChartedPlay } from '#domain/charting/play-columns.js';
import type { ClanDatabase } from '../../database/clan-transaction.js';
import { ReconciliationService } from '../reconciliation/reconciliation.service.js';
import { ChartPacksRepository, type Packed } from './chart-packs.repository.js';
import { ChartRecordsRepository } from './chart-records.repository.js';

export type { Packed } from './chart-packs.repository.js';

/** What follows from a change of plays, in the transaction that makes it. */
@Injectable()
export class ChartChangesService {
  constructor(
    private readonly packs: ChartPacksRepository,
    private readonly records: ChartRecordsRepository,
    private readonly reconciliation: ReconciliationService,
  ) {}

  /**
   * Raises the chart's revision, writes its packed copy, makes anew what counts of the game, and raises the revision of
   * the scope last, since every writer of a scope waits for its row.
   */
  async changed(db: ClanDatabase, gameId: string, chartIds: readonly string[]): Promise<void> {
    for (const chartId of chartIds) await this.packs.raise(db, { clanId: db.clanId, chartId, gameId });
    await this.settle(db, gameId);
  }

  /**
   * The same for one play more of the one chart of a game, which is what counts of it; seen so with the game locked, and
   * done last of all.
   */
  playAdded(
    db: ClanDatabase,
    chart: { readonly id: string; readonly gameId: string },
    before: Packed,
    play: ChartedPlay,
  ): Promise<void> {
    return this.packs.raiseByPlay(db, { clanId: db.clanId, chartId: chart.id, gameId: chart.gameId }, before, play);
  }

  /** The same where a chart came or went, and no other changed. */
  async settle(db: ClanDatabase, gameId: string): Promise<void> {
    await this.reconciliation.rebuild(db, gameId);
    await this.records.raiseScope(db, gameId);
  }

  /** Every chart of a game whose players changed places: whose ball it was is written relative to the home player. */
  async gameChanged(db: ClanDatabase, gameId: string): Promise<void> {
    await this.changed(db, gameId, await this.records.chartedOf(db, gameId));
  }
}
