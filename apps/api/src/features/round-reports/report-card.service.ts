import { Injectable } from '@nestjs/common';
import { judgedGames } from '#domain/report-card/judged-games.js';
import type { PlannedCall } from '#domain/report-card/planned-calls.js';
import { reportCard } from '#domain/report-card/report-card.js';
import { ApiError } from '../../common/problems.js';
import { ClanTransactions, type ClanDatabase } from '../../database/clan-transaction.js';
import type { ReadReportCard } from '../../rendering/report-card-sections.js';
import type { Credential } from '../access/credential.js';
import { EventsService } from '../events/events.service.js';
import { OwnCallsService } from '../own-calls/own-calls.service.js';
import { PlayersService } from '../players/players.service.js';
import { TendenciesService, type Archive } from '../tendencies/tendencies.service.js';
import { TermsService } from '../terms/terms.service.js';
import { ReportCardRepository } from './report-card.repository.js';
import { RoundReportsRepository } from './round-reports.repository.js';

const TERMS = ['callFamily', 'concept', 'front', 'coverage', 'pressure'] as const;

/** Judges frozen reports by what was charted afterwards, under the reader's rights. */
@Injectable()
export class ReportCardService {
  constructor(
    private readonly transactions: ClanTransactions,
    private readonly repository: ReportCardRepository,
    private readonly reports: RoundReportsRepository,
    private readonly tendencies: TendenciesService,
    private readonly ownCalls: OwnCallsService,
    private readonly terms: TermsService,
    private readonly players: PlayersService,
    private readonly events: EventsService,
  ) {}

  /** @param gameId - the game to judge it by; null for those that follow from the report */
  read(credential: Credential, reportId: string, gameId: string | null): Promise<ReadReportCard> {
    return this.transactions.run(credential, 'read', async (db) => {
      const frozen = await this.repository.find(db, reportId);
      if (frozen === null) throw new ApiError('resource.not_found', 'no round report has this id');
      const { report, forPlayer } = frozen;
      const archive = await this.tendencies.archive(db);
      const batch = { facts: archive.facts, games: archive.charts, vocabulary: archive.vocabulary };
      const foretelling = { ...report, evidence: report.sample.charts, forPlayer };
      const charts = judgedGames(foretelling, archive.charts, gameId);
      const gameIds = charts.flatMap((place) => archive.charts[place]?.gameId ?? []);
      const card = reportCard({
        report,
        batch,
        charts,
        planned: await this.planned(db, archive, gameIds),
        pool: await this.repository.pooled(db),
        confidence: report.settings.confidence,
        seed: report.seed,
      });
      const handles = await this.players.handles(db, [report.playerId]);
      const names = new Map((await this.reports.games(db, gameIds)).map(({ id, name }) => [id, name]));
      const event = report.eventId === null ? null : await this.events.find(db, report.eventId);
      return {
        id: reportId,
        opponent: handles.get(report.playerId) ?? null,
        event: event?.name ?? null,
        round: report.round,
        madeAt: report.madeAt,
        asOf: report.asOf ?? null,
        confidence: report.settings.confidence,
        ...card,
        games: card.games.map((id) => ({ gameId: id, name: names.get(id) ?? null })),
      };
    });
  }

  private async planned(db: ClanDatabase, { vocabulary }: Archive, gameIds: readonly string[]): Promise<PlannedCall[]> {
    const rows = await this.ownCalls.ofGames(db, gameIds);
    const stored = new Set(rows.flatMap((row) => TERMS.flatMap((term) => row[term] ?? [])));
    const canonical = await this.terms.canonicalIds(db, vocabulary, stored);
    const of = (term: number | null): number | null => (term === null ? null : canonical(term));
    return rows.map(({ gameId, orderInGame, side, callFamily, concept, front, coverage, pressure }) => ({
      ...{ gameId, orderInGame, side },
      ...{ callFamily: of(callFamily), concept: of(concept) },
      ...{ front: of(front), coverage: of(coverage), pressure: of(pressure) },
    }));
  }
}
