import { Injectable, Logger } from '@nestjs/common';
import { callArchive, type CallArchive } from '#domain/forecast/live/call-archive.js';
import { askModel, type CallModel } from '#domain/forecast/live/call-model.js';
import { classesOfGame, nextCall, type KnownLooks } from '#domain/forecast/live/next-call.js';
import { fieldOfTarget, sideOfTarget, type ForecastTarget } from '#domain/forecast/targets.js';
import { classifyPlays, DEFAULT_FOOTBALL_SETTINGS } from '#domain/tendencies/classify-plays.js';
import type { TendencyPlays } from '#domain/tendencies/tendency-plays.js';
import { ClanTransactions, type ClanDatabase } from '../../database/clan-transaction.js';
import type { Credential } from '../access/credential.js';
import { PlayersService, type KnownPlayer } from '../players/players.service.js';
import { TendenciesService, type Archive } from '../tendencies/tendencies.service.js';
import { CallFitting } from './call-fitting.js';
import { GamesInProgress } from './games-in-progress.js';
import { nextCallAnswer, type NextCallAnswer } from './next-call-answer.js';
import { readQuestion, type NextCallQuestion } from './read-question.js';
import { readSnaps } from './read-snaps.js';

/** Looks of which what was counted is kept: far more than an evening shows, some kilobytes each. */
const MOST_LOOKS = 1_000;

/** An archive ready to be asked, and the model of its calls once that is fitted. */
interface Prepared {
  calls: CallArchive;
  model: CallModel | null;
  /** What was asked before: games in progress of the model, and looks. */
  games: GamesInProgress;
  looks: KnownLooks;
}

/** All that a question is answered from, outside of any transaction. */
interface Asked {
  readonly player: KnownPlayer;
  readonly archive: Archive;
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
  async ask(
    credential: Credential,
    playerId: string,
    body: Readonly<Record<string, unknown>>,
  ): Promise<NextCallAnswer> {
    const question = readQuestion(body);
    const asked = await this.transactions.glanceOrRead(credential, (db) => this.asked(db, playerId));
    return this.answer(asked, playerId, question);
  }

  private async asked(db: ClanDatabase, playerId: string): Promise<Asked> {
    const { player, archive: revision } = await this.players.requireInArchive(db, playerId);
    return { player, archive: await this.tendencies.archive(db, await this.tendencies.readerOf(db, revision)) };
  }

  private answer({ player, archive }: Asked, playerId: string, question: NextCallQuestion): NextCallAnswer {
    const { target, gameSoFar } = question;
    const { vocabulary } = archive;
    const { calls, model, games, looks } = this.archiveOf(archive, target);
    const number = archive.players.get(player.identity) ?? -1;
    const before = model === null ? null : games.of(player.identity, gameSoFar);
    const snaps = readSnaps(question, target, vocabulary, before?.snaps.length ?? 0);
    const facts = classifyPlays(snaps, vocabulary, DEFAULT_FOOTBALL_SETTINGS);
    const game = { facts, classOf: classesOfGame(calls, facts, fieldOfTarget(target)) };
    const says = model === null ? null : askModel(model, number, game, before?.told);
    if (says !== null && before?.snaps.length !== gameSoFar.length) {
      games.keep({ player: player.identity, snaps: gameSoFar, told: says.told });
    }
    const found = nextCall(calls, number, game, says, looks);
    if (looks.size > MOST_LOOKS) looks.clear();
    return nextCallAnswer({ playerId, handle: player.handle }, question, calls, game, found, vocabulary);
  }

  private archiveOf({ facts, models, vocabulary }: Archive, target: ForecastTarget): Prepared {
    let byTarget = this.prepared.get(facts);
    if (byTarget === undefined) this.prepared.set(facts, (byTarget = new Map<ForecastTarget, Prepared>()));
    let prepared = byTarget.get(target);
    if (prepared === undefined) {
      const calls = callArchive(target, facts, models[sideOfTarget(target)].playerOf, vocabulary);
      byTarget.set(target, (prepared = { calls, model: null, games: new GamesInProgress(), looks: new Map() }));
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
      prepared.looks = new Map();
      prepared.model = fitted.model;
    } catch (error) {
      this.logger.error('no model of calls could be fitted; answers go on by counting', error);
    }
  }
}
