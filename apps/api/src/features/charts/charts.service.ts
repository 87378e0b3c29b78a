import { Injectable } from '@nestjs/common';
import { unpackPlays } from '#domain/charting/packed-plays.js';
import { bothSides, gatherPlays, type PlayColumns } from '#domain/charting/play-columns.js';
import type { PlayFieldName } from '#domain/charting/play-fields.js';
import type { ClanDatabase } from '../../database/clan-transaction.js';
import { ChartsRepository, type CountingChart } from './charts.repository.js';

export type { CountingChart };

/** A chart as it was at a revision. */
export type ChartAt = Pick<CountingChart, 'clanId' | 'chartId' | 'gameId' | 'revision'>;

/** About 150 bytes a play, so that a full cache stays near 60 MB. */
const KEPT_PLAYS = 400_000;
/** Of a batch that is gathered from charts that are not kept. */
const CHARTS_AT_A_TIME = 200;

/**
 * Columns of players' charts, kept in the process by whose chart it is and its revision, never by reader: which charts a
 * reader may see is asked of the database in the reader's own transaction, so a withdrawal needs no word to this cache. A clan that
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
    // Held from here on: while packs are read, another request may let go of what is kept.
    const found = new Map(charts.map((chart) => [key(chart), this.kept.get(key(chart))]));
    const missing = charts.filter((chart) => found.get(key(chart)) === undefined);
    if (missing.length > 0) {
      for (const [at, plays] of await this.unpacked(db, missing)) {
        found.set(at, plays);
        this.keep(at, plays);
      }
    }
    return charts.map((chart) => found.get(key(chart)) ?? missingPack(chart));
  }

  /**
   * The plays of many charts in their order as a few batches of some fields, term ids as charted. A whole archive would
   * fill the memory twice, so some hundred charts at a time are read, and none is kept.
   */
  async batches(
    db: ClanDatabase,
    charts: readonly ChartAt[],
    fields: readonly PlayFieldName[],
  ): Promise<PlayColumns[]> {
    const batches: PlayColumns[] = [];
    for (let from = 0; from < charts.length; from += CHARTS_AT_A_TIME) {
      const some = charts.slice(from, from + CHARTS_AT_A_TIME);
      const read = await this.unpacked(db, some);
      const sources = some.map((chart) => bothSides(read.get(key(chart)) ?? missingPack(chart)));
      batches.push(gatherPlays(sources, fields, (term) => term));
    }
    return batches;
  }

  private async unpacked(db: ClanDatabase, charts: readonly ChartAt[]): Promise<Map<string, PlayColumns>> {
    const wanted = new Map(charts.map((chart) => [key(chart), chart]));
    const found = new Map<string, PlayColumns>();
    for (const { bytes, ...pack } of await this.repository.packs(db, charts)) {
      const chart = wanted.get(key(pack));
      // Somebody charts it right now: of another revision than the one that is asked for.
      if (chart !== undefined) found.set(key(pack), unpackPlays(bytes, chart));
    }
    return found;
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

function missingPack(chart: ChartAt): never {
  throw new Error(`chart ${key(chart)} has no packed copy of that revision`);
}

function key({ clanId, chartId, revision }: Pick<ChartAt, 'clanId' | 'chartId' | 'revision'>): string {
  return `${clanId}:${chartId}:${revision}`;
}
