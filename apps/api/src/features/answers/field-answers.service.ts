import { Injectable } from '@nestjs/common';
import { fitAnswerModel, type AnswerModel } from '#domain/answers/answer-model.js';
import type { MenuCall } from '#domain/answers/options.js';
import { PayoffTable } from '#domain/answers/payoffs.js';
import { SituationCounts } from '#domain/answers/situation-counts.js';
import { reportAnswers } from '#domain/reports/answers/report-answers.js';
import type { ReportAnswers } from '#domain/reports/answers/report-answers-shape.js';
import type { Side, TendencyPlays } from '#domain/tendencies/tendency-plays.js';
import type { ClanDatabase } from '../../database/clan-transaction.js';
import type { CountingChart } from '../charts/charts.service.js';
import { MenuService } from '../menu/menu.service.js';
import { TendenciesService, type Reader } from '../tendencies/tendencies.service.js';

/** Of every posterior draw, so that the same archive always gives the same mix. */
export const ANSWER_SEED = 7;

/** What has answered what over the archive, as one clan sees it at one revision. */
export interface FieldAnswers {
  readonly model: AnswerModel;
  /** Null where the archive is too small to tell anything. */
  readonly payoffs: PayoffTable | null;
  readonly counts: Readonly<Record<Side, SituationCounts>>;
  /** Those of the model's batch, in its order. */
  readonly charts: readonly CountingChart[];
  /** A player's number in the model by identity, and the other way round. */
  readonly players: ReadonlyMap<string, number>;
  readonly identities: readonly string[];
}

/** Fits the archive once a revision; what is asked of it is quick. */
@Injectable()
export class FieldAnswersService {
  private readonly fitted = new WeakMap<TendencyPlays, FieldAnswers>();

  constructor(
    private readonly tendencies: TendenciesService,
    private readonly menu: MenuService,
  ) {}

  async of(db: ClanDatabase, reader?: Reader): Promise<FieldAnswers> {
    const { facts, models, players, charts, vocabulary } = await this.tendencies.archive(db, reader);
    const kept = this.fitted.get(facts);
    if (kept !== undefined) return kept;
    const model = fitAnswerModel({
      facts,
      offenseOf: models.offense.playerOf,
      defenseOf: models.defense.playerOf,
      players: players.size,
      vocabulary,
    });
    const answers: FieldAnswers = {
      model,
      payoffs: model.points === null ? null : new PayoffTable(model.points, ANSWER_SEED, model.bySituation),
      counts: { offense: new SituationCounts(model, 'offense'), defense: new SituationCounts(model, 'defense') },
      charts,
      players,
      identities: [...players.keys()],
    };
    this.fitted.set(facts, answers);
    return answers;
  }

  /** What a report on one player says of answers and mixes. */
  async ofReport(db: ClanDatabase, identity: string, confidence: number, reader: Reader): Promise<ReportAnswers> {
    const { players, ...field } = await this.of(db, reader);
    return reportAnswers({
      ...field,
      player: players.get(identity) ?? -1,
      menu: await this.menuOf(db, reader),
      confidence,
      seed: ANSWER_SEED,
    });
  }

  /** The clan's installed menu in the terms of the model. */
  async menuOf(db: ClanDatabase, reader?: Reader): Promise<MenuCall[]> {
    return this.menu.installed(db, (reader ?? (await this.tendencies.reader(db))).vocabulary);
  }
}
