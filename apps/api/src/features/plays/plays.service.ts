import { Injectable } from '@nestjs/common';
import type { ChartedPlay } from '#domain/charting/play-columns.js';
import type { Vocabulary } from '#domain/charting/vocabulary.js';
import { AuditRepository } from '../../common/audit.repository.js';
import { requireCurrent, type Change } from '../../common/change.js';
import type { Creation } from '../../common/creation.js';
import { etagOf } from '../../common/etag.js';
import { page } from '../../common/page.dto.js';
import { valuesOfRow } from '../../common/play-values.js';
import { ApiError } from '../../common/problems.js';
import { QuotaRepository } from '../../common/quota.repository.js';
import { found, Resources } from '../../common/resources.js';
import { ClanTransactions, type ClanDatabase } from '../../database/clan-transaction.js';
import type { Credential } from '../access/credential.js';
import { ChartChangesService } from '../charts/chart-changes.service.js';
import { requireMade } from '../charts/chart-records.service.js';
import { ChartsService } from '../charts/charts.service.js';
import { PlayersService } from '../players/players.service.js';
import { TermsService } from '../terms/terms.service.js';
import { playResponse, termIdsOf } from './play-response.js';
import type { PlayPage, PlayResponse } from './plays.dto.js';
import { keyText, readPlaysQuery, type PlaysQuery } from './plays.query.js';
import { PlaysRepository, type LockedChart, type PlayFilter, type PlayRow, type PlaysOf } from './plays.repository.js';
import { NOTHING_KNOWN, patchedPlay, type PlayFacts } from './read-play.js';

/** Plays, one by one and in lists; every change carries revision, packed copy and what counts of the game along. */
@Injectable()
export class PlaysService {
  constructor(
    private readonly transactions: ClanTransactions,
    private readonly resources: Resources,
    private readonly repository: PlaysRepository,
    private readonly charts: ChartsService,
    private readonly changes: ChartChangesService,
    private readonly players: PlayersService,
    private readonly terms: TermsService,
    private readonly quota: QuotaRepository,
    private readonly audit: AuditRepository,
  ) {}

  ofChart(credential: Credential, chartId: string, query: PlaysQuery): Promise<PlayPage> {
    return this.transactions.run(credential, 'read', async (db) => {
      await this.requireSeen(db, 'chart', chartId);
      return this.list(db, { chartIds: [chartId] }, query);
    });
  }

  ofGame(credential: Credential, gameId: string, query: PlaysQuery): Promise<PlayPage> {
    return this.transactions.run(credential, 'read', async (db) => {
      await this.requireSeen(db, 'game', gameId);
      return this.list(db, { gameId }, query);
    });
  }

  /** Of the charts that count: a contest that several people charted is there once. */
  ofPlayer(credential: Credential, playerId: string, query: PlaysQuery): Promise<PlayPage> {
    return this.transactions.run(credential, 'read', async (db) => {
      const { recordIds } = await this.players.require(db, playerId);
      const side = query['side'] ?? 'offense';
      if (side !== 'offense' && side !== 'defense') {
        throw new ApiError('request.invalid', 'some parameters are not valid', {
          errors: [{ field: 'side', found: '', expected: 'offense or defense' }],
        });
      }
      const charts = await this.charts.ofPlayers(db, recordIds);
      const chartIds = charts.map((chart) => chart.chartId);
      return this.list(db, { chartIds, side, playerIds: recordIds }, query, ['side']);
    });
  }

  read(credential: Credential, chartId: string, playNumber: number): Promise<PlayResponse> {
    return this.transactions.run(credential, 'read', async (db) =>
      this.inWords(db, found(await this.repository.find(db, chartId, playNumber), 'play')),
    );
  }

  add(
    credential: Credential,
    creation: Creation,
    chartId: string,
    body: Readonly<Record<string, unknown>>,
  ): Promise<PlayResponse> {
    return this.resources.create(credential, creation, async (db) => {
      const chart = found(await this.repository.openChart(db, chartId), 'chart', 'of yours ');
      requireMade(chart);
      const vocabulary = await this.terms.vocabulary(db, chart.words);
      const { playNumber, packed } = chart;
      this.quota.requireRoomForPlay(chart.kept);
      const told = patchedPlay(NOTHING_KNOWN, body, vocabulary);
      await this.requireFreeOrder(db, chartId, told, 0);
      const facts = { ...told, orderInGame: told.orderInGame ?? chart.orderInGame };
      const inserting = this.repository.insert(db, chart, facts).then((row) => this.inWords(db, row, vocabulary));
      const alone = chart.chartsOfGame === 1 && packed !== null;
      const changing = alone
        ? this.changes.playAdded(db, chart, packed, chartedPlay(playNumber, facts))
        : inserting.then(() => this.changes.changed(db, chart.gameId, [chartId]));
      const [play] = await Promise.all([inserting, changing]);
      return play;
    });
  }

  change(credential: Credential, chartId: string, playNumber: number, change: Change): Promise<PlayResponse> {
    return this.transactions.run(credential, 'write', async (db) => {
      const chart = await this.lock(db, chartId);
      const row = found(await this.repository.findOwn(db, chartId, playNumber), 'play');
      requireCurrent(change.ifMatch, etagOf(await this.inWords(db, row)));
      const facts = patchedPlay(factsOf(row), change.patch, await this.terms.vocabulary(db));
      await this.requireFreeOrder(db, chartId, facts, playNumber);
      await this.repository.update(db, chartId, playNumber, facts);
      const fields = Object.keys(change.patch).sort();
      await this.audit.did(db, 'play.changed', 'play', chartId, { playNumber, fields });
      await this.changes.changed(db, chart.gameId, [chartId]);
      return this.own(db, chartId, playNumber);
    });
  }

  remove(credential: Credential, chartId: string, playNumber: number, ifMatch: string): Promise<void> {
    return this.transactions.run(credential, 'write', async (db) => {
      const chart = await this.lock(db, chartId);
      const row = found(await this.repository.findOwn(db, chartId, playNumber), 'play');
      requireCurrent(ifMatch, etagOf(await this.inWords(db, row)));
      await this.repository.remove(db, chartId, playNumber);
      await this.audit.removed(db, 'play', chartId, { playNumber });
      await this.changes.changed(db, chart.gameId, [chartId]);
    });
  }

  private async list(
    db: ClanDatabase,
    of: PlaysOf,
    query: PlaysQuery,
    also: readonly string[] = [],
  ): Promise<PlayPage> {
    const vocabulary = await this.terms.vocabulary(db);
    const { limit, after, filters } = readPlaysQuery(query, vocabulary, also);
    const asked = filters.map((filter) => this.withAllIds(vocabulary, filter));
    const rows = await this.repository.list(db, of, { after, filters: asked }, limit + 1);
    const { items, next } = page(rows, limit, keyText);
    const nameOf = await this.terms.names(db, vocabulary, termIdsOf(items));
    return { items: items.map((row) => playResponse(row, nameOf)), next };
  }

  /** A term is found under every id that counts as it. */
  private withAllIds(vocabulary: Vocabulary, { field, value }: PlayFilter): PlayFilter {
    if ((field.type !== 'term' && field.type !== 'terms') || value === null) return { field, value };
    const ids = typeof value === 'number' ? [value] : value;
    return { field, value: ids.flatMap((id) => this.terms.idsCountingAs(vocabulary, field.kind, id)) };
  }

  private async own(db: ClanDatabase, chartId: string, playNumber: number): Promise<PlayResponse> {
    return this.inWords(db, found(await this.repository.findOwn(db, chartId, playNumber), 'play'));
  }

  private async inWords(db: ClanDatabase, row: PlayRow, known?: Vocabulary): Promise<PlayResponse> {
    const vocabulary = known ?? (await this.terms.vocabulary(db));
    return playResponse(row, await this.terms.names(db, vocabulary, termIdsOf([row])));
  }

  private async lock(db: ClanDatabase, chartId: string): Promise<LockedChart> {
    const chart = found(await this.repository.lockChart(db, chartId), 'chart', 'of yours ');
    requireMade(chart);
    return chart;
  }

  private async requireSeen(db: ClanDatabase, table: 'chart' | 'game', id: string): Promise<void> {
    if (!(await this.repository.sees(db, table, id))) found(null, table);
  }

  private async requireFreeOrder(
    db: ClanDatabase,
    chartId: string,
    { orderInGame }: PlayFacts,
    butOf: number,
  ): Promise<void> {
    if (orderInGame === null || !(await this.repository.orderTaken(db, chartId, orderInGame, butOf))) return;
    throw new ApiError('play.order_taken', 'another play of this chart has that order', {
      errors: [{ field: 'orderInGame', found: String(orderInGame), expected: 'an order that no other play has' }],
    });
  }
}

function chartedPlay(playNumber: number, facts: PlayFacts & { readonly orderInGame: number }): ChartedPlay {
  const { orderInGame, offense, values } = facts;
  return { playNumber, orderInGame, offenseIsHome: offense === 'home', values };
}

function factsOf(row: PlayRow): PlayFacts {
  const { orderInGame, offense, adjustments, knownBy, note } = row;
  return { orderInGame, offense, values: valuesOfRow(row), note, adjustments, knownBy };
}
