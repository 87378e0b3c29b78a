import { Injectable } from '@nestjs/common';
import { predictedTables } from '#domain/reports/predictions/predicted-tables.js';
import { planForecasts, type PlannedForecast } from '#domain/reports/predictions/forecast-tables.js';
import type { PredictedTable } from '#domain/reports/predictions/predictions-shape.js';
import { assembleRoundReport, type RoundReportInput } from '#domain/reports/round-report.js';
import type { NextOpponents } from '#domain/reports/next-opponents-shape.js';
import type { JsonValue, RoundReport, RoundReportSettings } from '#domain/reports/round-report-shape.js';
import { DEFAULT_FOOTBALL_SETTINGS } from '#domain/tendencies/classify-plays.js';
import { DEFAULT_NOTABLE } from '#domain/tendencies/notable.js';
import type { Profile } from '#domain/tendencies/profile-shape.js';
import { Clock } from '../../common/clock.js';
import { CODE_VERSION } from '../../config/code-version.js';
import type { ClanDatabase } from '../../database/clan-transaction.js';
import { ANSWER_SEED, FieldAnswersService } from '../answers/field-answers.service.js';
import { ChartingQueueService } from '../charting-queue/charting-queue.service.js';
import { CoachingPointsService } from '../coaching-points/coaching-points.service.js';
import type { KnownPlayer } from '../players/players.service.js';
import {
  EVERYTHING,
  TendenciesService,
  type Reader,
  type Scouting,
  type ScoutingWish,
} from '../tendencies/tendencies.service.js';
import { ForecastFreezing } from './forecast-freezing.js';
import { habitsInput } from './habits-input.js';

const SETTINGS = {
  confidence: 0.9,
  ...DEFAULT_NOTABLE,
  filmLength: 10,
  thinSnaps: 10,
} as const satisfies Omit<RoundReportSettings, 'football'>;

// Plain data without functions, which is all that JSON asks; its interfaces only lack an index signature.
const FOOTBALL = JSON.parse(JSON.stringify(DEFAULT_FOOTBALL_SETTINGS)) as JsonValue;

const WHOLE_GAMES: ScoutingWish = { filter: { allSnaps: true }, halfLifeDays: null };

/** More pieces of film than this are a list for the queue itself. */
const MOST_TO_CHART = 2;

export interface ReportWish {
  readonly eventId: string;
  readonly round: string | null;
  readonly next: NextOpponents | null;
  /** ISO 8601 date: as things stood before that day; null for as they stand. */
  readonly asOf: string | null;
  /** Whether habits and answers are searched for, which takes most of the time. */
  readonly habits: boolean;
}

/** All of a report but its forecast, which is still being worked out; nothing more is asked of the database. */
export interface ReportDraft {
  readonly report: RoundReportInput;
  /** Null where none could be fitted; never rejects. */
  readonly forecasting: Promise<RoundReportInput['forecast'] | null>;
}

/** Makes reports as data; whether they are kept is for others to say. */
@Injectable()
export class ReportMakerService {
  constructor(
    private readonly tendencies: TendenciesService,
    private readonly answers: FieldAnswersService,
    private readonly points: CoachingPointsService,
    private readonly queue: ChartingQueueService,
    private readonly freezing: ForecastFreezing,
    private readonly clock: Clock,
  ) {}

  async make(db: ClanDatabase, opponent: KnownPlayer, wish: ReportWish): Promise<RoundReport> {
    return this.finish(await this.draft(db, opponent, wish));
  }

  /** Takes seconds where habits are wanted, and no transaction. */
  async finish({ report, forecasting }: ReportDraft): Promise<RoundReport> {
    const forecast = await forecasting;
    return assembleRoundReport({ ...report, ...(forecast != null && { forecast }) });
  }

  /** Everything that a report needs of the database. */
  async draft(db: ClanDatabase, opponent: KnownPlayer, wish: ReportWish): Promise<ReportDraft> {
    const reader = await this.tendencies.reader(db, wish.asOf);
    const scouting = await this.tendencies.scout(db, opponent, EVERYTHING, reader);
    const offense = await scouting.side('offense', SETTINGS.confidence);
    const defense = await scouting.side('defense', SETTINGS.confidence);
    const whole = scouting.charts.every(({ allSnaps }) => allSnaps)
      ? scouting
      : await this.tendencies.scout(db, opponent, WHOLE_GAMES, reader);
    const predicted = wish.habits ? await predictions(scouting, [offense.profile, defense.profile]) : [];
    // Goes on beside all that follows.
    const planned = await this.planned(db, reader, opponent, predicted);
    const forecasting = wish.habits ? this.freezing.freeze(planned) : Promise.resolve(null);
    const report: RoundReportInput = {
      playerId: opponent.identity,
      eventId: wish.eventId,
      round: wish.round,
      madeAt: this.clock.now().toISOString(),
      ...(wish.asOf !== null && { asOf: wish.asOf }),
      codeVersion: CODE_VERSION,
      seed: ANSWER_SEED,
      settings: { ...SETTINGS, football: FOOTBALL },
      charts: scouting.charts.map(({ chartId, gameId, revision, playedOn, importance, rulesVersion }) => ({
        chartId,
        gameId,
        revision,
        playedOn,
        importance,
        rulesVersion,
      })),
      offense: { facts: offense.plays, profile: offense.profile },
      defense: { facts: defense.plays, profile: defense.profile },
      ...(wish.next !== null && { next: wish.next }),
      ...(wish.habits && {
        habits: await habitsInput(scouting, whole, await this.answers.menuOf(db, reader), SETTINGS.confidence),
        answers: await this.answers.ofReport(db, opponent.identity, SETTINGS.confidence, reader),
        notes: await this.notes(db),
        predicted,
        // The queue knows what is uncharted now, not what was on an earlier day.
        chartNext: wish.asOf === null ? (await this.queue.ofPlayer(db, opponent)).slice(0, MOST_TO_CHART) : [],
      }),
    };
    return { report, forecasting };
  }

  private async planned(
    db: ClanDatabase,
    reader: Reader,
    opponent: KnownPlayer,
    predicted: readonly PredictedTable[],
  ): Promise<PlannedForecast[]> {
    if (predicted.length === 0) return [];
    const { facts, models, players, vocabulary } = await this.tendencies.archive(db, reader);
    const playerOf = { offense: models.offense.playerOf, defense: models.defense.playerOf };
    return planForecasts({ facts, playerOf, player: players.get(opponent.identity) ?? -1, vocabulary }, predicted);
  }

  /** Only what the whole clan reads goes into a report, also into one that a person makes for itself. */
  private async notes(db: ClanDatabase): Promise<NonNullable<RoundReportInput['notes']>> {
    const { vocabulary } = await this.tendencies.reader(db);
    return { of: await this.points.ofClan(db, vocabulary), vocabulary };
  }
}

/** What the report card will judge, side by side. */
async function predictions(scouting: Scouting, profiles: readonly Profile[]): Promise<PredictedTable[]> {
  const tables: PredictedTable[] = [];
  for (const profile of profiles) {
    tables.push(...predictedTables({ ...(await scouting.own(profile.side)), profile }));
  }
  return tables;
}
