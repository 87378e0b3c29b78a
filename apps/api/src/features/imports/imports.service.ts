import { createWriteStream } from 'node:fs';
import { once } from 'node:events';
import { join } from 'node:path';
import type { Readable } from 'node:stream';
import { Inject, Injectable } from '@nestjs/common';
import type { Vocabulary } from '#domain/charting/vocabulary.js';
import { ApiError } from '../../common/problems.js';
import { ClanTransactions, type ClanDatabase } from '../../database/clan-transaction.js';
import { SETTINGS, type Settings } from '../../config/settings.js';
import type { Credential } from '../access/credential.js';
import { TermsService } from '../terms/terms.service.js';
import { addRecord } from './add-record.js';
import { readHeader } from './import-headers.js';
import type { ImportFormat } from './import-format.js';
import { ImportPlan, MAIN_CHART, type KnownNames } from './import-plan.js';
import type { ImportResponse } from './imports.dto.js';
import { ImportsRepository } from './imports.repository.js';
import { ProblemList } from './problem-list.js';
import { PlayReader } from './read-play.js';
import { readRows, type ImportRow } from './read-rows.js';
import type { ChartRecord } from './records.dto.js';
import { openSpool, spoolBody } from './spool-body.js';

/** A body that is on its way, and how it describes itself. */
export interface IncomingFile {
  readonly body: Readable;
  readonly format: ImportFormat;
  readonly declaredBytes: number | undefined;
}

/** What a file is for: any games of the clan, or the one chart that the address names. */
export type ImportTarget =
  | { readonly kind: 'archive' }
  | {
      readonly kind: 'chart';
      readonly gameId: string;
      readonly facts: Omit<ChartRecord, 'game'> & { reference: string };
    };

const LISTED_BREAKS = 200;

@Injectable()
export class ImportsService {
  constructor(
    private readonly transactions: ClanTransactions,
    private readonly repository: ImportsRepository,
    private readonly terms: TermsService,
    @Inject(SETTINGS) private readonly settings: Settings,
  ) {}

  /**
   * Brings a file in, all or nothing. The file is spooled, read and checked before the writing transaction opens, so a
   * slow sender or a long file holds no lock.
   */
  async importFile(
    credential: Credential,
    file: IncomingFile,
    target: ImportTarget,
    mode: 'check' | 'commit',
  ): Promise<ImportResponse> {
    // Refuse an unknown key before taking in a body that may be large.
    const { known, vocabulary } = await this.transactions.run(credential, 'read', (db) => this.load(db));
    const facts = targetFacts(target, known);
    const spool = await openSpool();
    try {
      const { path } = await spoolBody(file.body, spool, this.settings.bodyLimitBytes, file.declaredBytes);
      const playsPath = join(spool.folder, 'plays');
      const plan = await this.plan(path, file.format, facts, playsPath, known, vocabulary);
      if (mode === 'commit') {
        await this.transactions.run(credential, 'write', (db) =>
          this.repository.write(db, plan, known.privateScopeId, playsPath),
        );
      }
      return describe(plan, mode);
    } finally {
      await spool.remove();
    }
  }

  private async load(db: ClanDatabase): Promise<{ known: KnownNames; vocabulary: Vocabulary }> {
    return { known: await this.repository.knownNames(db), vocabulary: await this.terms.vocabulary(db) };
  }

  private async plan(
    path: string,
    format: ImportFormat,
    chart: (ChartRecord & { reference: string }) | null,
    playsPath: string,
    known: KnownNames,
    vocabulary: Vocabulary,
  ): Promise<ImportPlan> {
    const problems = new ProblemList();
    const sink = createWriteStream(playsPath);
    const plan = new ImportPlan(known, vocabulary, problems, {
      write: async (lines) => {
        if (!sink.write(lines)) await once(sink, 'drain');
      },
    });
    const plays = new PlayReader(vocabulary, problems);
    if (chart !== null) plan.addChart(0, chart);
    const required = chart === null ? ['game', 'order', 'offense', 'playType'] : ['order', 'offense', 'playType'];
    try {
      for await (const row of readRows(path, format, (cells) => readHeader(cells, required))) {
        const kind = format === 'csv' ? 'play' : row.record['record'];
        if (kind === 'play' || (chart !== null && kind === undefined)) {
          const game = chart?.game ?? nameIn(row, 'game');
          const name = chart?.reference ?? nameIn(row, 'chart') ?? MAIN_CHART;
          const reading = plays.read(row);
          if (game === null) problems.add(row.row, 'game', row.record['game'], 'the reference of a game');
          else await plan.addPlay(row.row, game, name, reading);
        } else if (chart !== null)
          problems.add(row.row, 'record', kind, 'play: this address takes the plays of one chart');
        else addRecord(plan, row, kind, problems);
      }
      await plan.finish();
    } finally {
      sink.end();
      await once(sink, 'close');
    }
    refuse(plan, problems);
    return plan;
  }
}

/** The chart that the address names, once it is sure that the game is the clan's own. */
function targetFacts(target: ImportTarget, known: KnownNames): (ChartRecord & { reference: string }) | null {
  if (target.kind === 'archive') return null;
  const game = [...known.games].find(([, { id }]) => id === target.gameId);
  if (game === undefined) throw new ApiError('resource.not_found', 'no game of yours has this id');
  return { ...target.facts, game: game[0] };
}

function nameIn({ record }: ImportRow, key: string): string | null {
  const value = record[key];
  return typeof value === 'string' && value.trim() !== '' ? value.trim() : null;
}

function refuse(plan: ImportPlan, problems: ProblemList): void {
  if (problems.total > 0) {
    throw new ApiError('import.refused', `${problems.total} problems; nothing was imported`, {
      errors: problems.listed,
      totalErrors: problems.total,
    });
  }
  if (plan.changedSince.length > 0) {
    throw new ApiError('import.changed_since', 'these charts were edited after this file had been imported', {
      errors: plan.changedSince.map(({ row, game, chart }) => ({
        row,
        field: 'chart',
        found: `${chart} of ${game}`,
        expected: 'another name for the chart, or an edit of the chart itself',
      })),
      totalErrors: plan.changedSince.length,
    });
  }
}

function describe(plan: ImportPlan, mode: 'check' | 'commit'): ImportResponse {
  const created: Record<string, number> = {};
  for (const [table, rows] of Object.entries(plan.rows)) if (rows.length > 0) created[table] = rows.length;
  const plays = plan.packs.reduce((sum, pack) => sum + pack.plays, 0);
  if (plays > 0) created['play'] = plays;
  const breaks = plan.charts.flatMap(({ game, chart, breaks: ofChart }) =>
    ofChart.map(({ orderInGame, field, found, expected, message }) => ({
      game,
      chart,
      order: orderInGame,
      field,
      found: String(found),
      expected: String(expected),
      message,
    })),
  );
  return {
    mode,
    created,
    matched: plan.matched,
    charts: plan.charts.map(({ breaks: _, ...chart }) => chart),
    totalContinuityBreaks: breaks.length,
    continuityBreaks: breaks.slice(0, LISTED_BREAKS),
  };
}
