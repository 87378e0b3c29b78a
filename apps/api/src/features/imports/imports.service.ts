import type { Readable } from 'node:stream';
import { pipeline } from 'node:stream/promises';
import { Inject, Injectable, Logger } from '@nestjs/common';
import type { Creation } from '../../common/creation.js';
import { IdempotencyRepository } from '../../common/idempotency.repository.js';
import { AuditRepository } from '../../common/audit.repository.js';
import { ApiError } from '../../common/problems.js';
import { QuotaRepository } from '../../common/quota.repository.js';
import { ClanTransactions, type ClanDatabase } from '../../database/clan-transaction.js';
import { SETTINGS, type Settings } from '../../config/settings.js';
import type { Credential } from '../access/credential.js';
import { ReconciliationService } from '../reconciliation/reconciliation.service.js';
import { SheetMappingsService } from '../sheet-mappings/sheet-mappings.service.js';
import { TermsService } from '../terms/terms.service.js';
import { FileReading, type NamedChart, type ReadFile } from './file-reading.js';
import type { ImportFormat } from './import-format.js';
import type { ImportResponse } from './imports.dto.js';
import { ImportsRepository, TABLES } from './imports.repository.js';
import { openSpool } from './spool.js';
import { spoolBody } from './spool-body.js';

/** A body that is on its way, and how it describes itself. */
export interface IncomingFile {
  readonly body: Readable;
  readonly format: ImportFormat;
  readonly declaredBytes: number | undefined;
  /** What lets the import be sent twice and happen once, by the digest of the body. */
  creationOf(sha256: Buffer): Creation;
}

/** What the address of an import asks for. */
export interface ImportWishes {
  readonly mode: 'check' | 'commit';
  /** Id of a mapping, for a sheet in a person's own words. */
  readonly mappingId: string | null;
  readonly leftovers: 'tell' | 'refuse';
}

/** What a file is for: any games of the clan, or the one chart that the address names. */
export type ImportTarget =
  | { readonly kind: 'archive' }
  | {
      readonly kind: 'chart';
      readonly gameId: string;
      readonly facts: Omit<NamedChart, 'game'>;
    };

@Injectable()
export class ImportsService {
  private readonly logger = new Logger(ImportsService.name);

  constructor(
    private readonly transactions: ClanTransactions,
    private readonly repository: ImportsRepository,
    private readonly terms: TermsService,
    private readonly reconciliation: ReconciliationService,
    private readonly mappings: SheetMappingsService,
    private readonly quota: QuotaRepository,
    private readonly idempotency: IdempotencyRepository,
    private readonly audit: AuditRepository,
    @Inject(SETTINGS) private readonly settings: Settings,
  ) {}

  /**
   * Brings a file in, all or nothing. The whole body is spooled before the transaction opens, so a slow sender holds no
   * lock and no connection; then the file is read once, its plays going to the server while the rest is being checked.
   */
  async importFile(
    credential: Credential,
    file: IncomingFile,
    target: ImportTarget,
    { mode, mappingId, leftovers }: ImportWishes,
  ): Promise<ImportResponse> {
    if (mappingId !== null && file.format !== 'csv') {
      throw new ApiError('request.invalid', 'a mapping is for a sheet, that is for CSV', {
        errors: [{ field: 'mapping', found: mappingId, expected: 'none, with JSON Lines' }],
      });
    }
    // An unknown key, game or mapping is refused before a body is taken in that may be large.
    const { chart, mapping } = await this.transactions.run(credential, 'read', async (db) => ({
      chart: await this.namedChart(db, target),
      mapping: mappingId === null ? null : await this.mappings.require(db, mappingId),
    }));
    const spool = await openSpool();
    try {
      const { path, sha256 } = await spoolBody(file.body, spool, this.settings.bodyLimitBytes, file.declaredBytes);
      const read: ReadFile = { path, format: file.format, chart, mapping, leftovers };
      if (mode === 'check') return await this.transactions.run(credential, 'read', (db) => this.check(db, read));
      const told = await this.transactions.run(credential, 'write', (db) =>
        this.idempotency.once(db, file.creationOf(sha256), () => this.commit(db, read)),
      );
      await this.analyzeGrownTables(credential);
      return told;
    } finally {
      await spool.remove();
    }
  }

  /** What came in is in by now, whether or not this works. */
  private async analyzeGrownTables(credential: Credential): Promise<void> {
    try {
      await this.transactions.run(credential, 'write', (db) => this.repository.analyzeGrownTables(db));
    } catch (error) {
      this.logger.warn(
        'no statistics could be taken after an import; until autovacuum does, questions may be slow',
        error,
      );
    }
  }

  private async namedChart(db: ClanDatabase, target: ImportTarget): Promise<NamedChart | null> {
    if (target.kind === 'archive') return null;
    const game = await this.repository.gameReference(db, target.gameId);
    if (game === null) throw new ApiError('resource.not_found', 'no game of yours has this id');
    return { ...target.facts, game };
  }

  private async check(db: ClanDatabase, file: ReadFile): Promise<ImportResponse> {
    const known = await this.repository.knownNames(db);
    const reading = new FileReading(file, known, await this.terms.vocabulary(db));
    await reading.toTheEnd();
    reading.refuseProblems();
    return describe(reading, 'check');
  }

  private async commit(db: ClanDatabase, file: ReadFile): Promise<ImportResponse> {
    const known = await this.repository.knownNames(db);
    const reading = new FileReading(file, known, await this.terms.vocabulary(db));
    await pipeline(reading.playRows(), await this.repository.playsInWaiting(db));
    reading.refuseProblems();
    const { plan } = reading;
    const plays = plan.packs.reduce((sum, pack) => sum + pack.plays, 0);
    await this.quota.requireRoomForImport(db, plan.rows.game.length, plays);
    await this.repository.write(db, plan, known.privateScopeId);
    await this.reconciliation.rebuildAll(db, [...new Set(plan.packs.map(({ gameId }) => gameId))]);
    const told = describe(reading, 'commit');
    await this.audit.did(db, 'import.committed', 'import', null, { created: told.created });
    await this.repository.raiseRevisions(db, plan);
    return told;
  }
}

function describe({ plan, leftovers }: FileReading, mode: 'check' | 'commit'): ImportResponse {
  const created: Record<string, number> = {};
  for (const table of TABLES) if (plan.rows[table].length > 0) created[table] = plan.rows[table].length;
  const plays = plan.packs.reduce((sum, pack) => sum + pack.plays, 0);
  if (plays > 0) created['play'] = plays;
  return {
    mode,
    created,
    matched: plan.matched,
    // A check makes up an id for each new chart, by which nothing will ever be found.
    charts: plan.charts.map((chart) => (mode === 'check' && chart.created ? { ...chart, chartId: null } : chart)),
    totalLeftovers: leftovers.total,
    leftovers: leftovers.listed,
    totalContinuityBreaks: plan.totalBreaks,
    continuityBreaks: plan.breaks.map(({ game, chart, orderInGame, field, found, expected, message }) => ({
      game,
      chart,
      order: orderInGame,
      field,
      found: String(found),
      expected: String(expected),
      message,
    })),
  };
}
