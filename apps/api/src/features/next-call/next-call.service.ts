import { Injectable, Logger } from '@nestjs/common';
import { callArchive, type CallArchive } from '#domain/forecast/live/call-archive.js';
import { askModel, type CallModel } from '#domain/forecast/live/call-model.js';
import { classesOfGame, nextCall } from '#domain/forecast/live/next-call.js';
import { fieldOfTarget, sideOfTarget, type ForecastTarget } from '#domain/forecast/targets.js';
import { classifyPlays, DEFAULT_FOOTBALL_SETTINGS } from '#domain/tendencies/classify-plays.js';
import type { TendencyPlays } from '#domain/tendencies/tendency-plays.js';
import { ClanTransactions } from '../../database/clan-transaction.js';
import type { Credential } from '../access/credential.js';
import { PlayersService } from '../players/players.service.js';
import { TendenciesService, type Archive } from '../tendencies/tendencies.service.js';
import { CallFitting } from './call-fitting.js';
import type { NextCallInput, NextCallResponse } from './next-call.dto.js';
import { nextCallResponse } from './next-call-response.js';
import { readSnaps } from './read-snaps.js';

/** An archive ready to be asked, and the model of its calls once that is fitted. */
interface Prepared {
  calls: CallArchive;
  model: CallModel | null;
}

@Injectable()
export class NextCallService {
  private readonly logger = new Logger(NextCallService.name);
  /**
   * Prepared archives by the plays that they were made from. Those belong to one clan at one revision of what it may see
   * (`TendenciesService.archive`), so that nothing prepared for one clan answers another, and go when the plays go.
   */
  private readonly prepared = new WeakMap<TendencyPlays, Map<ForecastTarget, Prepared>>();

  constructor(
    private readonly transactions: ClanTransactions,
    private readonly players: PlayersService,
    private readonly tendencies: TendenciesService,
    private readonly fitting: CallFitting,
  ) {}

  /** @throws ApiError `request.invalid`, `resource.not_found`, `forecast.too_little` */
  ask(credential: Credential, playerId: string, input: NextCallInput): Promise<NextCallResponse> {
    return this.transactions.run(credential, 'read', async (db) => {
      // Sent together, since neither needs the answer of the other.
      const [player, reader] = await Promise.all([this.players.require(db, playerId), this.tendencies.reader(db)]);
      const archive = await this.tendencies.archive(db, reader);
      const { target = 'call-family' } = input;
      const { calls, model } = this.archiveOf(archive, target);
      const snaps = readSnaps(input, target, archive.vocabulary);
      const facts = classifyPlays(snaps, archive.vocabulary, DEFAULT_FOOTBALL_SETTINGS);
      const game = { facts, classOf: classesOfGame(calls, facts, fieldOfTarget(target)) };
      const number = archive.players.get(player.identity) ?? -1;
      const says = model === null ? null : askModel(model, number, facts);
      const found = nextCall(calls, number, game, says);
      return nextCallResponse({ playerId, handle: player.handle }, input, calls, game, found, archive.vocabulary);
    });
  }

  private archiveOf({ facts, models, vocabulary }: Archive, target: ForecastTarget): Prepared {
    let byTarget = this.prepared.get(facts);
    if (byTarget === undefined) this.prepared.set(facts, (byTarget = new Map<ForecastTarget, Prepared>()));
    let prepared = byTarget.get(target);
    if (prepared === undefined) {
      const calls = callArchive(target, facts, models[sideOfTarget(target)].playerOf, vocabulary);
      byTarget.set(target, (prepared = { calls, model: null }));
      void this.fit(prepared);
    }
    return prepared;
  }

  /** Until it is done requests are answered by counting, with weights that nothing was fitted to. */
  private async fit(prepared: Prepared): Promise<void> {
    try {
      const fitted = await this.fitting.fit(prepared.calls);
      if (fitted === null) return;
      prepared.calls = { ...prepared.calls, weights: fitted.weights };
      prepared.model = fitted.model;
    } catch (error) {
      this.logger.error('no model of calls could be fitted; answers go on by counting', error);
    }
  }
}
