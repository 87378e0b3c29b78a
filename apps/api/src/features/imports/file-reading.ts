import type { SheetMapping } from '#domain/charting/sheet-mapping.js';
import type { Vocabulary } from '#domain/charting/vocabulary.js';
import { ApiError } from '../../common/problems.js';
import { addRecord } from './add-record.js';
import type { ImportFormat } from './import-format.js';
import { readHeader } from './import-headers.js';
import { ImportPlan, MAIN_CHART, type KnownNames } from './import-plan.js';
import { LeftoverList } from './leftover-list.js';
import { mappedRows } from './mapped-rows.js';
import { ProblemList } from './problem-list.js';
import { PlayReader } from './read-play.js';
import { readRows, rowsByName, type ImportRow, type RowMaker } from './read-rows.js';
import type { ChartRecord } from './records.dto.js';

/** The one chart that an address names. */
export type NamedChart = ChartRecord & { readonly reference: string };

/** A spooled file and what it is for; without a chart it may hold any games of the clan. */
export interface ReadFile {
  readonly path: string;
  readonly format: ImportFormat;
  readonly chart: NamedChart | null;
  /** How a person's own sheet is to be understood; null for a sheet in our own words. */
  readonly mapping: SheetMapping | null;
  /** Words that the mapping does not explain are told and left out, or nothing is imported. */
  readonly leftovers: 'tell' | 'refuse';
}

/** One pass over a file: a plan of what to write, or what is wrong with it. */
export class FileReading {
  readonly plan: ImportPlan;
  private readonly problems = new ProblemList();
  private readonly plays: PlayReader;
  readonly leftovers = new LeftoverList();

  constructor(
    private readonly file: ReadFile,
    known: KnownNames,
    private readonly vocabulary: Vocabulary,
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
    let isEmpty = true;
    if (chart !== null) this.plan.addChart(0, chart);
    const required = ['order', 'offense', 'playType', ...(chart === null ? ['game'] : [])];
    const header = (cells: readonly string[]): RowMaker => this.rowMaker(cells, required);
    for await (const row of readRows(path, format, header, this.problems)) {
      isEmpty = false;
      const rows = this.take(row);
      if (rows !== '') yield rows;
    }
    if (!isEmpty) yield this.plan.finish();
    else if (this.problems.total === 0) this.refuseEmpty();
  }

  /** A file without a row is more likely one that was cut off than one that is meant to bring in nothing. */
  private refuseEmpty(): void {
    const [row, expected] = this.file.format === 'csv' ? [2, 'a play in each row under the header'] : [1, 'records'];
    this.problems.add(row, '', 'no rows', expected);
  }

  /** Reads the file for its problems alone. */
  async toTheEnd(): Promise<void> {
    const rows = this.playRows();
    while ((await rows.next()).done !== true);
  }

  private rowMaker(headers: readonly string[], required: readonly string[]): RowMaker {
    const { mapping } = this.file;
    if (mapping === null) return rowsByName(readHeader(headers, required));
    return mappedRows(mapping, headers, required, this.vocabulary, this.problems, this.leftovers);
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
    if (this.file.leftovers === 'refuse') this.leftovers.refuse(this.problems);
    if (this.problems.total > 0) {
      throw new ApiError(
        'import.refused',
        `${this.problems.total} ${this.problems.total === 1 ? 'problem' : 'problems'}; nothing was imported`,
        {
          errors: this.problems.listed,
          totalErrors: this.problems.total,
        },
      );
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
