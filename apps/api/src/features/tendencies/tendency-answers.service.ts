import { Injectable } from '@nestjs/common';
import type { AskedPlays } from '#domain/tendencies/decisions/asked-plays.js';
import type { Side } from '#domain/tendencies/tendency-plays.js';
import { KeptAnswers } from '../../common/kept-answers.js';
import type { FigureType, TaggedAnswer } from '../../common/tagged-answer.js';
import { ClanTransactions, type ClanDatabase } from '../../database/clan-transaction.js';
import type { Credential } from '../access/credential.js';
import type { CountingChart } from '../charts/charts.service.js';
import { PlayersService } from '../players/players.service.js';
import { TendenciesService, type OwnSide, type Scouting } from './tendencies.service.js';
import type { FilterQuery } from './tendency-query.dto.js';
import { TendencyWishesService } from './tendency-wishes.service.js';

/** A question as it came in. */
export interface Asking<Query extends FilterQuery> {
  readonly credential: Credential;
  readonly playerId: string;
  readonly query: Query;
  /** The tag of what the client has. */
  readonly heldTag: string | undefined;
  /** JSON where left out. */
  readonly type?: FigureType;
}

/** What every answer about a player begins with. */
export interface AnswerHead {
  readonly playerId: string;
  readonly handle: string;
  readonly side: string;
  /** Of every interval. */
  readonly confidence: number;
  readonly newestGame: string | null;
}

/** What an answer is computed from. */
export interface Answering {
  readonly db: ClanDatabase;
  readonly head: AnswerHead;
  readonly scouting: Scouting;
  /** The player's plays on the side that was asked for, without the field's. */
  readonly own: () => Promise<OwnSide>;
  /** The player's plays on the side that was asked for, and the field. */
  readonly asked: (side?: Side) => Promise<AskedGames>;
}

/** Plays with the games that they are from, each in the order of its batch. */
export interface AskedGames extends AskedPlays {
  readonly charts: readonly CountingChart[];
  readonly fieldCharts: readonly CountingChart[];
}

/** Not what was written out already, which leaves out itself what nobody asked for. */
function isData(computed: object | string): computed is object {
  return typeof computed === 'object' && !(computed instanceof Uint8Array);
}

/** As JSON, its lists of plays empty. */
function withoutPlays(answer: object): string {
  return JSON.stringify(answer, (name, value: unknown) => (name === 'plays' && Array.isArray(value) ? [] : value));
}

/**
 * Answers a question about one player: finds the plays under the reader's rights, names every input in a tag, and
 * computes only what neither the client nor this process has.
 */
@Injectable()
export class TendencyAnswersService {
  constructor(
    private readonly transactions: ClanTransactions,
    private readonly players: PlayersService,
    private readonly tendencies: TendenciesService,
    private readonly wishes: TendencyWishesService,
    private readonly kept: KeptAnswers,
  ) {}

  /**
   * @param name - of the question, so that two questions of one query have two tags
   * @param only - `whole charts` leaves out games of which only some snaps were looked at
   * @param compute - the answer as data, as the text that was asked for, or as the bytes that go out
   * @param also - reads what else the answer is made of, as plain data, so that the tag names it too
   */
  answer<Query extends FilterQuery, Also = null>(
    name: string,
    { credential, playerId, query, heldTag, type = 'application/json' }: Asking<Query>,
    compute: (answering: Answering, also: Also | null) => Promise<object | string>,
    only: 'any charts' | 'whole charts' = 'any charts',
    also?: (db: ClanDatabase) => Promise<Also>,
  ): Promise<TaggedAnswer> {
    const work = async (db: ClanDatabase): Promise<TaggedAnswer> => {
      // Sent together, since none needs the answer of another.
      const [{ player, archive }, wish] = await Promise.all([
        this.players.requireInArchive(db, playerId),
        this.wishes.of(db, query),
      ]);
      const reader = await this.tendencies.readerOf(db, archive);
      const filter = only === 'whole charts' ? { ...wish.filter, allSnaps: true } : wish.filter;
      const scouting = await this.tendencies.scout(db, player, { ...wish, filter }, reader);
      const more = also === undefined ? null : await also(db);
      const inputs = [name, type, scouting.inputs, playerId, player.handle, query, more];
      const { side, confidence } = query;
      const answering: Answering = {
        db,
        scouting,
        head: { playerId, handle: player.handle, side, confidence, newestGame: scouting.charts[0]?.playedOn ?? null },
        own: () => scouting.own(side),
        asked: async (of: Side = side) => {
          const { field, player: number, ...plays } = await scouting.asked(of);
          const { facts, vocabulary, charts, fieldCharts } = plays;
          return { facts, field, player: number, vocabulary, confidence, charts, fieldCharts };
        },
      };
      return this.kept.answer(inputs, heldTag, async () => {
        const computed = await compute(answering, more);
        return query.evidence === 'none' && isData(computed) ? withoutPlays(computed) : computed;
      });
    };
    return also === undefined
      ? this.transactions.glanceOrRead(credential, work)
      : this.transactions.run(credential, 'read', work);
  }
}
