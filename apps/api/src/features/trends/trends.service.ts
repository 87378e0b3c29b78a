import { Injectable } from '@nestjs/common';
import type { Side } from '#domain/tendencies/tendency-plays.js';
import { TREND_LEVEL, trends, type Trends } from '#domain/trends/trends.js';
import type { WhoAndWhen } from '#domain/trends/usage-counts.js';
import { testedWords } from '#domain/trends/trend-words.js';
import { etagOf } from '../../common/etag.js';
import type { TaggedAnswer } from '../../common/tagged-answer.js';
import { CODE_VERSION } from '../../config/code-version.js';
import { ClanTransactions, type ClanDatabase } from '../../database/clan-transaction.js';
import type { Credential } from '../access/credential.js';
import { EventsService } from '../events/events.service.js';
import { PlayersService } from '../players/players.service.js';
import { TendenciesService, type Archive } from '../tendencies/tendencies.service.js';
import { eventDays, type EventDay } from './event-days.js';
import { trendResponse, type TrendSource } from './trends-response.js';
import type { TrendsQuery, TrendsResponse } from './trends.dto.js';

const SEED = 0;

/** Trends of an archive with what they were read from. */
export interface FoundTrends extends TrendSource {
  readonly found: Trends;
  readonly usage: WhoAndWhen;
  readonly days: readonly EventDay[];
}

@Injectable()
export class TrendsService {
  constructor(
    private readonly transactions: ClanTransactions,
    private readonly tendencies: TendenciesService,
    private readonly events: EventsService,
    private readonly players: PlayersService,
  ) {}

  read(credential: Credential, query: TrendsQuery, heldTag: string | undefined): Promise<TaggedAnswer> {
    return this.transactions.run(credential, 'read', async (db) => {
      const etag = etagOf(['trends', await this.tendencies.archiveInputs(db), query, CODE_VERSION]);
      if (heldTag === etag) return { etag, body: null };
      const source = await this.find(db, query.side, query.confidence);
      const { found, days } = source;
      const shown = found.trends.filter(({ verdict }) => query.all || verdict === 'rising' || verdict === 'falling');
      const answer: TrendsResponse = {
        side: query.side,
        confidence: query.confidence,
        events: days.map((day) => ({ ...day, eventIds: [...day.eventIds] })),
        tested: found.tested,
        restsOn: testedWords(found.tested, TREND_LEVEL),
        trends: shown.map((trend) => trendResponse(trend, query.side, source)),
      };
      return { etag, body: Buffer.from(JSON.stringify(answer)) };
    });
  }

  async find(db: ClanDatabase, side: Side, confidence: number): Promise<FoundTrends> {
    const { facts, charts, models, players, vocabulary } = await this.tendencies.archive(db);
    const ids = new Set(charts.flatMap(({ eventId }) => eventId ?? []));
    const { days, eventOf } = eventDays(charts, await this.events.named(db, [...ids]));
    const { playerOf } = models[side];
    const usage = { playerOf, players: players.size, eventOf, events: days.length };
    const found = trends({ ...usage, facts, side, vocabulary, confidence, seed: SEED });
    return { found, usage, days, facts, charts, handleOf: await this.handles(db, players, playerOf) };
  }

  private async handles(
    db: ClanDatabase,
    players: Archive['players'],
    playerOf: Int32Array,
  ): Promise<TrendSource['handleOf']> {
    const identities = [...players.keys()];
    const handles = await this.players.handles(db, identities);
    return (play) => handles.get(identities[playerOf[play] ?? -1] ?? '') ?? null;
  }
}
