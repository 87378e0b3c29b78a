import { Injectable } from '@nestjs/common';
import { unpackPlays } from '#domain/charting/packed-plays.js';
import type { PlayColumns } from '#domain/charting/play-columns.js';
import type { ClanDatabase } from '../../database/clan-transaction.js';
import { ChartsRepository, type CountingChart } from './charts.repository.js';

export type { CountingChart };

/** A chart as it was at a revision. */
export type ChartAt = Pick<CountingChart, 'clanId' | 'chartId' | 'gameId' | 'revision'>;

/** About 70 bytes a play, so that a full cache stays near 100 MB. */
const KEPT_PLAYS = 1_500_000;

/**
 * Columns of charts, kept in the process by whose chart it is and its revision, never by reader: which charts a reader may
 * see is asked of the database in the reader's own transaction, so a withdrawal needs no word to this cache. A clan that
 * gives a chart of its own the id of another's gets its own.
 */
@Injectable()
export class ChartsService {
  private readonly kept = new Map<string, PlayColumns>();
  private keptPlays = 0;

  constructor(private readonly repository: ChartsRepository) {}

  ofPlayers(db: ClanDatabase, playerIds: readonly string[]): Promise<CountingChart[]> {
    return this.repository.ofPlayers(db, playerIds);
  }

  ofArchive(db: ClanDatabase): Promise<CountingChart[]> {
    return this.repository.ofArchive(db);
  }

  archiveRevision(db: ClanDatabase): Promise<string> {
    return this.repository.archiveRevision(db);
  }

  /** The plays of one chart that the reader may see, the own one where two clans have one of that id. */
  async playsOf(db: ClanDatabase, chart: Omit<ChartAt, 'clanId'>): Promise<PlayColumns> {
    const clanId = await this.repository.clanOf(db, chart.chartId);
    const [plays] = await this.plays(db, [{ ...chart, clanId }]);
    if (plays === undefined) throw new Error('one chart has the plays of none');
    return plays;
  }

  /** The plays of each chart, in the order of the charts. */
  async plays(db: ClanDatabase, charts: readonly ChartAt[]): Promise<PlayColumns[]> {
    const found = new Map<string, PlayColumns>();
    const missing: ChartAt[] = [];
    for (const chart of charts) {
      const kept = this.kept.get(key(chart));
      if (kept === undefined) missing.push(chart);
      else found.set(key(chart), kept);
    }
    if (missing.length > 0) {
      const games = new Map(missing.map((chart) => [key(chart), chart.gameId]));
      for (const { bytes, ...pack } of await this.repository.packs(db, missing)) {
        const gameId = games.get(key(pack));
        // Somebody charts it right now: of another revision than the one that is asked for.
        if (gameId === undefined) continue;
        const plays = unpackPlays(bytes, { chartId: pack.chartId, gameId });
        found.set(key(pack), plays);
        this.keep(key(pack), plays);
      }
    }
    return charts.map((chart) => {
      const plays = found.get(key(chart));
      if (plays === undefined) throw new Error(`chart ${key(chart)} has no packed copy of that revision`);
      return plays;
    });
  }

  private keep(at: string, plays: PlayColumns): void {
    for (const [oldest, old] of this.kept) {
      if (this.keptPlays + plays.count <= KEPT_PLAYS) break;
      this.kept.delete(oldest);
      this.keptPlays -= old.count;
    }
    this.kept.set(at, plays);
    this.keptPlays += plays.count;
  }
}

function key({ clanId, chartId, revision }: Pick<ChartAt, 'clanId' | 'chartId' | 'revision'>): string {
  return `${clanId}:${chartId}:${revision}`;
}
