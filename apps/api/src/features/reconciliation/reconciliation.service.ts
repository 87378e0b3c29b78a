import { Injectable } from '@nestjs/common';
import { uuidv7 } from 'uuidv7';
import { filmScopeRank } from '#domain/charting/film-scope.js';
import { packPlays, unpackPlays } from '#domain/charting/packed-plays.js';
import { columnsFromPlays } from '#domain/charting/play-columns.js';
import { reconcileCharts, type ChartOfGame } from '#domain/charting/reconcile.js';
import { membersOf, numberReconciled } from '#domain/charting/reconcile-numbers.js';
import { playsOfColumns } from '#domain/charting/reconcile-plays.js';
import type { ClanDatabase } from '../../database/clan-transaction.js';
import { hashRows, numberedPlays, reconciledRows } from './reconciled-rows.js';
import { ReconciliationRepository, type GameOfCharts, type StoredChart } from './reconciliation.repository.js';

/** What counts of games with several charts. */
@Injectable()
export class ReconciliationService {
  constructor(private readonly repository: ReconciliationRepository) {}

  /**
   * Makes the reconciled chart of an own game anew. To be called in every transaction that writes, changes or removes a
   * chart of the game or plays of it, when rows and packs are written and before the scope's revision is raised. A game
   * with one chart has no reconciled one. Nothing is written where nothing changed.
   */
  rebuild(db: ClanDatabase, gameId: string): Promise<void> {
    return this.rebuildAll(db, [gameId]);
  }

  /** The same for the games of a whole import. */
  async rebuildAll(db: ClanDatabase, gameIds: readonly string[]): Promise<void> {
    if (gameIds.length === 0) return;
    const { several, orphans } = await this.repository.lockGames(db, gameIds);
    for (const chartId of orphans) await this.repository.remove(db, chartId);
    for (const game of several) await this.rebuildGame(db, game);
  }

  private async rebuildGame(db: ClanDatabase, game: GameOfCharts): Promise<void> {
    const charts = await this.repository.charts(db, game);
    const originals = charts.filter(({ kind }) => kind === 'charted');
    const existing = charts.find(({ kind }) => kind === 'reconciled');
    const chartId = existing?.chartId ?? uuidv7();
    const before = existing === undefined ? null : await this.repository.stored(db, game.clanId, chartId);

    const reconciliation = reconcileCharts(await this.withPlays(db, game.clanId, originals));
    const { numbers, lastNumber } = numberReconciled(reconciliation, before?.plays ?? [], before?.lastPlayNumber ?? 0);
    const originalIds = originals.map((chart) => chart.chartId);
    const extras = await this.repository.extras(db, game.clanId, originalIds);
    const rows = reconciledRows(game, reconciliation, numbers, extras);
    const contentHash = hashRows(reconciliation.filmScope, rows);
    if (existing?.contentHash?.equals(contentHash) !== true) {
      const columns = columnsFromPlays({ chartId, gameId: game.id }, numberedPlays(reconciliation, numbers));
      await this.repository.write(db, game, {
        chartId,
        chartedAt: newest(originals),
        filmScope: reconciliation.filmScope,
        filmScopeRank: filmScopeRank(reconciliation.filmScope),
        revision: (existing?.revision ?? 0) + 1,
        contentHash,
        plays: rows,
        pack: Buffer.from(packPlays(columns)),
      });
    }
    await this.repository.remember(db, game.scopeId, chartId, {
      lastPlayNumber: lastNumber,
      plays: reconciliation.plays.map((play, at) => ({
        playNumber: numbers[at] ?? 0,
        members: membersOf(reconciliation, play),
      })),
    });
  }

  /** Charts with their plays, read from the packed copies. */
  async withPlays(db: ClanDatabase, clanId: string, charts: readonly StoredChart[]): Promise<ChartOfGame[]> {
    const packs = await this.repository.packs(
      db,
      clanId,
      charts.map(({ chartId }) => chartId),
    );
    return charts.map(({ chartId, gameId, filmScope, chartedAt }) => {
      const pack = packs.get(chartId);
      return {
        chartId,
        filmScope,
        chartedAt,
        plays: pack === undefined ? [] : playsOfColumns(unpackPlays(pack, { chartId, gameId })),
      };
    });
  }
}

function newest(charts: readonly StoredChart[]): string | null {
  return charts.reduce<string | null>((latest, { chartedAt }) => {
    if (chartedAt === null) return latest;
    return latest === null || chartedAt > latest ? chartedAt : latest;
  }, null);
}
