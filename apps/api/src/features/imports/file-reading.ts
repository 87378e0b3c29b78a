import type { Vocabulary } from '#domain/charting/vocabulary.js';
import { ApiError } from '../../common/problems.js';
import { addRecord } from './add-record.js';
import type { ImportFormat } from './import-format.js';
import { readHeader } from './import-headers.js';
import { ImportPlan, MAIN_CHART, type KnownNames } from './import-plan.js';
import { ProblemList } from './problem-list.js';
import { PlayReader } from './read-play.js';
import { readRows, type ImportRow } from './read-rows.js';
import type { ChartRecord } from './records.dto.js';

/** The one chart that an address names. */
export type NamedChart = ChartRecord & { readonly reference: string };

/** A spooled file and what it is for; without a chart it may hold any games of the clan. */
export interface ReadFile {
  readonly path: string;
  readonly format: ImportFormat;
  readonly chart: NamedChart | null;
}

/** One pass over a file: a plan of what to write, or what is wrong with it. */
export class FileReading {
  readonly plan: ImportPlan;
  private readonly problems = new ProblemList();
  private readonly plays: PlayReader;

  constructor(
    private readonly file: ReadFile,
    known: KnownNames,
    vocabulary: Vocabulary,
  ) {
    this.plan = new ImportPlan(known, vocabulary, this.problems);
    this.plays = new PlayReader(vocabulary, this.problems);
  }

  /**
   * Reads the file to its end.
   *
   * @returns rows of table `play` in COPY format, a chart at a time; none from the first problem on
   */
  async *playRows(): AsyncGenerator<string> {
    const { path, format, chart } = this.file;
    if (chart !== null) this.plan.addChart(0, chart);
    const required = ['order', 'offense', 'playType', ...(chart === null ? ['game'] : [])];
    for await (const row of readRows(path, format, (cells) => readHeader(cells, required))) {
      const rows = this.take(row);
      if (rows !== '') yield rows;
    }
    yield this.plan.finish();
  }

  /** Reads the file for its problems alone. */
  async toTheEnd(): Promise<void> {
    const rows = this.playRows();
    while ((await rows.next()).done !== true);
  }

  private take(row: ImportRow): string {
    const { format, chart } = this.file;
    const kind = format === 'csv' ? 'play' : row.record['record'];
    if (kind !== 'play' && !(chart !== null && kind === undefined)) {
      if (chart === null) addRecord(this.plan, row, kind, this.problems);
      else this.problems.add(row.row, 'record', kind, 'play: this address takes the plays of one chart');
      return '';
    }
    const game = chart?.game ?? nameIn(row, 'game');
    const reading = this.plays.read(row);
    if (game !== null) {
      return this.plan.addPlay(row.row, game, chart?.reference ?? nameIn(row, 'chart') ?? MAIN_CHART, reading);
    }
    this.problems.add(row.row, 'game', row.record['game'], 'the reference of a game');
    return '';
  }

  /** @throws ApiError `import.refused` or `import.changed_since` when the file cannot be taken as it is */
  refuseProblems(): void {
    if (this.problems.total > 0) {
      throw new ApiError('import.refused', `${this.problems.total} problems; nothing was imported`, {
        errors: this.problems.listed,
        totalErrors: this.problems.total,
      });
    }
    const { changedSince } = this.plan;
    if (changedSince.length > 0) {
      throw new ApiError('import.changed_since', 'these charts were edited after this file had been imported', {
        errors: changedSince.map(({ row, game, chart }) => ({
          row,
          field: 'chart',
          found: `${chart} of ${game}`,
          expected: 'another name for the chart, or an edit of the chart itself',
        })),
        totalErrors: changedSince.length,
      });
    }
  }
}

function nameIn({ record }: ImportRow, key: string): string | null {
  const value = record[key];
  return typeof value === 'string' && value.trim() !== '' ? value.trim() : null;
}
