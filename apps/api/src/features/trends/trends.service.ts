import { Injectable } from '@nestjs/common';
import type { Side, TendencyPlays } from '#domain/tendencies/tendency-plays.js';
import { TREND_LEVEL, trends, type Trends } from '#domain/trends/trends.js';
import type { WhoAndWhen } from '#domain/trends/usage-counts.js';
import { testedWords } from '#domain/trends/trend-words.js';
import { KeptAnswers } from '../../common/kept-answers.js';
import { NamesInViewRepository } from '../../common/names-in-view.repository.js';
import type { TaggedAnswer } from '../../common/tagged-answer.js';
import { ClanTransactions, type ClanDatabase } from '../../database/clan-transaction.js';
import type { Credential } from '../access/credential.js';
import { EventsService } from '../events/events.service.js';
import { PlayersService } from '../players/players.service.js';
import { TendenciesService, type Archive, type Reader } from '../tendencies/tendencies.service.js';
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
  /** By the plays of the archive, by what else they were found from. */
  private readonly found = new WeakMap<TendencyPlays, Map<string, Trends>>();

  constructor(
    private readonly transactions: ClanTransactions,
    private readonly tendencies: TendenciesService,
    private readonly events: EventsService,
    private readonly players: PlayersService,
    private readonly names: NamesInViewRepository,
    private readonly kept: KeptAnswers,
  ) {}

  read(credential: Credential, query: TrendsQuery, heldTag: string | undefined): Promise<TaggedAnswer> {
    return this.transactions.run(credential, 'read', async (db) => {
      const reader = await this.tendencies.reader(db);
      const inputs = ['trends', await this.tendencies.archiveInputs(db, reader), query, await this.names.revision(db)];
      return this.kept.answer(inputs, heldTag, async (): Promise<TrendsResponse> => {
        const source = await this.find(db, query.side, query.confidence, reader);
        const { found, days } = source;
        const shown = found.trends.filter(({ verdict }) => query.all || verdict === 'rising' || verdict === 'falling');
        return {
          side: query.side,
          confidence: query.confidence,
          events: days.map((day) => ({ ...day, eventIds: [...day.eventIds] })),
          tested: found.tested,
          restsOn: testedWords(found.tested, TREND_LEVEL),
          trends: shown.map((trend) => trendResponse(trend, query.side, source)),
        };
      });
    });
  }

  async find(db: ClanDatabase, side: Side, confidence: number, reader?: Reader): Promise<FoundTrends> {
    const { facts, charts, models, players, vocabulary } = await this.tendencies.archive(db, reader);
    const ids = new Set(charts.flatMap(({ eventId }) => eventId ?? []));
    const { days, eventOf } = eventDays(charts, await this.events.named(db, [...ids]));
    const { playerOf } = models[side];
    const usage = { playerOf, players: players.size, eventOf, events: days.length };
    // Every study of a call asks for them, and they are the same for all.
    const kept = this.found.get(facts) ?? new Map<string, Trends>();
    this.found.set(facts, kept);
    const key = JSON.stringify([side, confidence, Array.from(eventOf)]);
    const found = kept.get(key) ?? trends({ ...usage, facts, side, vocabulary, confidence, seed: SEED });
    kept.set(key, found);
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
