import { Injectable } from '@nestjs/common';
import { callArchive, type CallArchive } from '#domain/forecast/live/call-archive.js';
import { classesOfGame, nextCall } from '#domain/forecast/live/next-call.js';
import { fieldOfTarget, sideOfTarget, type ForecastTarget } from '#domain/forecast/targets.js';
import { classifyPlays, DEFAULT_FOOTBALL_SETTINGS } from '#domain/tendencies/classify-plays.js';
import type { TendencyPlays } from '#domain/tendencies/tendency-plays.js';
import { ClanTransactions } from '../../database/clan-transaction.js';
import type { Credential } from '../access/credential.js';
import { PlayersService } from '../players/players.service.js';
import { TendenciesService, type Archive } from '../tendencies/tendencies.service.js';
import type { NextCallInput, NextCallResponse } from './next-call.dto.js';
import { nextCallResponse } from './next-call-response.js';
import { readSnaps } from './read-snaps.js';

@Injectable()
export class NextCallService {
  /**
   * Prepared archives by the plays that they were made from. Those belong to one clan at one revision of what it may see
   * (`TendenciesService.archive`), so that nothing prepared for one clan answers another, and go when the plays go.
   */
  private readonly prepared = new WeakMap<TendencyPlays, Map<ForecastTarget, CallArchive>>();

  constructor(
    private readonly transactions: ClanTransactions,
    private readonly players: PlayersService,
    private readonly tendencies: TendenciesService,
  ) {}

  /** @throws ApiError `request.invalid`, `resource.not_found`, `forecast.too_little` */
  ask(credential: Credential, playerId: string, input: NextCallInput): Promise<NextCallResponse> {
    return this.transactions.run(credential, 'read', async (db) => {
      // Sent together, since neither needs the answer of the other.
      const [player, reader] = await Promise.all([this.players.require(db, playerId), this.tendencies.reader(db)]);
      const archive = await this.tendencies.archive(db, reader);
      const { target = 'call-family' } = input;
      const calls = this.archiveOf(archive, target);
      const snaps = readSnaps(input, target, archive.vocabulary);
      const facts = classifyPlays(snaps, archive.vocabulary, DEFAULT_FOOTBALL_SETTINGS);
      const game = { facts, classOf: classesOfGame(calls, facts, fieldOfTarget(target)) };
      const found = nextCall(calls, archive.players.get(player.identity) ?? -1, game);
      return nextCallResponse({ playerId, handle: player.handle }, input, calls, game, found, archive.vocabulary);
    });
  }

  private archiveOf({ facts, models, vocabulary }: Archive, target: ForecastTarget): CallArchive {
    let byTarget = this.prepared.get(facts);
    if (byTarget === undefined) this.prepared.set(facts, (byTarget = new Map<ForecastTarget, CallArchive>()));
    let calls = byTarget.get(target);
    if (calls === undefined) {
      calls = callArchive(target, facts, models[sideOfTarget(target)].playerOf, vocabulary);
      byTarget.set(target, calls);
    }
    return calls;
  }
}
