import { Injectable } from '@nestjs/common';
import { chartAgreement } from '#domain/charting/agreement.js';
import { checkPlay } from '#domain/charting/check-play.js';
import { PLAY_FIELDS } from '#domain/charting/play-fields.js';
import { reconcileCharts, type ChartOfGame, type Reconciliation } from '#domain/charting/reconcile.js';
import { numberReconciled } from '#domain/charting/reconcile-numbers.js';
import { ApiError } from '../../common/problems.js';
import { ClanTransactions, type ClanDatabase } from '../../database/clan-transaction.js';
import type { Credential } from '../access/credential.js';
import { TermsService } from '../terms/terms.service.js';
import type { AgreementQuery, AgreementResponse, ReconciliationResponse } from './reconciliation.dto.js';
import { ReconciliationRepository, type GameOfCharts, type StoredChart } from './reconciliation.repository.js';
import { ReconciliationService } from './reconciliation.service.js';
import { valueWords } from './value-words.js';

/** Charts of one game beside each other: how far two agree, and what of each counts. */
@Injectable()
export class ChartComparisonService {
  constructor(
    private readonly transactions: ClanTransactions,
    private readonly repository: ReconciliationRepository,
    private readonly reconciliation: ReconciliationService,
    private readonly terms: TermsService,
  ) {}

  /**
   * @throws ApiError `resource.not_found` when the reader sees no such game, or the game has no such chart
   */
  agreement(credential: Credential, gameId: string, query: AgreementQuery): Promise<AgreementResponse> {
    return this.transactions.run(credential, 'read', async (db) => {
      const { game, charts } = await this.chartsOf(db, gameId);
      const [first, second] = await this.reconciliation.withPlays(db, game.clanId, [
        requireChart(charts, query.first),
        requireChart(charts, query.second),
      ]);
      if (first === undefined || second === undefined) throw new Error('two charts have two lists of plays');
      const vocabulary = await this.terms.vocabulary(db);
      const canonical = await this.terms.canonicalIds(db, vocabulary, termIdsOf([first, second]));
      const found = chartAgreement(first, second, (id) => canonical(id) ?? id, query.confidence);
      return {
        gameId,
        first: first.chartId,
        second: second.chartId,
        confidence: query.confidence,
        plays: found.plays,
        onlyInFirst: found.onlyInFirst,
        onlyInSecond: found.onlyInSecond,
        fields: found.fields.map(({ field, plays, same, kappa, noKappa }) => ({
          field,
          plays,
          same,
          kappa: kappa?.kappa ?? null,
          interval: kappa?.interval ?? null,
          noKappa,
        })),
        differing: found.differing.map(({ orderInGame, firstPlayNumber, secondPlayNumber, fields }) => ({
          order: orderInGame,
          firstPlayNumber,
          secondPlayNumber,
          fields: fields.map(({ field, first: one, second: other }) => ({
            field,
            first: valueWords(vocabulary, field, one),
            second: valueWords(vocabulary, field, other),
          })),
        })),
      };
    });
  }

  /** @throws ApiError `resource.not_found` when the reader sees no such game */
  whatCounts(credential: Credential, gameId: string): Promise<ReconciliationResponse> {
    return this.transactions.run(credential, 'read', async (db) => {
      const { game, charts } = await this.chartsOf(db, gameId);
      const originals = charts.filter(({ kind }) => kind === 'charted');
      if (originals.length === 0) return nothingCounts(gameId);
      // Made anew rather than stored: it is the same every time, and only numbers of plays have to be remembered.
      const reconciliation = reconcileCharts(await this.reconciliation.withPlays(db, game.clanId, originals));
      const reconciled = charts.find(({ kind }) => kind === 'reconciled');
      const stored =
        reconciled === undefined ? null : await this.repository.stored(db, game.clanId, reconciled.chartId);
      const { numbers } =
        stored === null
          ? { numbers: reconciliation.plays.map((play) => play.members.find((number) => number !== null) ?? 0) }
          : numberReconciled(reconciliation, stored.plays, stored.lastPlayNumber);
      return describe(gameId, (reconciled ?? originals[0])?.chartId ?? null, originals, reconciliation, numbers);
    });
  }

  private async chartsOf(
    db: ClanDatabase,
    gameId: string,
  ): Promise<{ readonly game: GameOfCharts; readonly charts: readonly StoredChart[] }> {
    const game = await this.repository.visibleGame(db, gameId);
    if (game === null) throw new ApiError('resource.not_found', 'no game has this id');
    return { game, charts: await this.repository.charts(db, game) };
  }
}

function requireChart(charts: readonly StoredChart[], chartId: string): StoredChart {
  const chart = charts.find((candidate) => candidate.chartId === chartId);
  if (chart === undefined) throw new ApiError('resource.not_found', `the game has no chart ${chartId}`);
  return chart;
}

function termIdsOf(charts: readonly ChartOfGame[]): Set<number> {
  const ids = new Set<number>();
  PLAY_FIELDS.forEach((field, place) => {
    if (field.type !== 'term' && field.type !== 'terms') return;
    for (const { plays } of charts) {
      for (const { values } of plays) {
        const value = values[place] ?? null;
        if (typeof value === 'number') ids.add(value);
        else value?.forEach((id) => ids.add(id));
      }
    }
  });
  return ids;
}

function nothingCounts(gameId: string): ReconciliationResponse {
  return { gameId, chartId: null, filmScope: null, charts: [], disputed: 0, contradictions: [], plays: [] };
}

function describe(
  gameId: string,
  chartId: string | null,
  originals: readonly StoredChart[],
  { charts, filmScope, plays }: Reconciliation,
  numbers: readonly number[],
): ReconciliationResponse {
  const byId = new Map(originals.map((chart) => [chart.chartId, chart]));
  const fieldsFrom = (from: readonly number[], chart: number): readonly string[] =>
    PLAY_FIELDS.flatMap(({ name }, place) => (from[place] === chart ? [name] : []));
  return {
    gameId,
    chartId,
    filmScope,
    charts: charts.flatMap((id, place) => {
      const chart = byId.get(id);
      if (chart === undefined) return [];
      return [
        {
          chartId: id,
          reference: chart.reference,
          chartedBy: chart.chartedBy,
          chartedAt: chart.chartedAt,
          revision: chart.revision,
          filmScope: chart.filmScope,
          plays: plays.filter(({ members }) => (members[place] ?? null) !== null).length,
          values: plays.reduce((sum, { from }) => sum + from.filter((source) => source === place).length, 0),
        },
      ];
    }),
    disputed: plays.reduce((sum, { disputed }) => sum + disputed.filter(Boolean).length, 0),
    contradictions: plays.flatMap(({ values }, at) =>
      checkPlay(values).map((problem) => ({ playNumber: numbers[at] ?? 0, ...problem })),
    ),
    plays: plays.map(({ orderInGame, from, disputed, members }, at) => ({
      playNumber: numbers[at] ?? 0,
      order: orderInGame,
      sources: members.flatMap((playNumber, chart) =>
        playNumber === null ? [] : [{ chartId: charts[chart] ?? '', playNumber, fields: fieldsFrom(from, chart) }],
      ),
      disputed: PLAY_FIELDS.flatMap(({ name }, place) => (disputed[place] === true ? [name] : [])),
    })),
  };
}
