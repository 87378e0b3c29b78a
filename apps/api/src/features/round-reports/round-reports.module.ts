import { Module } from '@nestjs/common';
import { Clock } from '../../common/clock.js';
import { AnswersModule } from '../answers/answers.module.js';
import { BracketsModule } from '../brackets/brackets.module.js';
import { ChartingQueueModule } from '../charting-queue/charting-queue.module.js';
import { CoachingPointsModule } from '../coaching-points/coaching-points.module.js';
import { EventsModule } from '../events/events.module.js';
import { OwnCallsModule } from '../own-calls/own-calls.module.js';
import { PlayersModule } from '../players/players.module.js';
import { TendenciesModule } from '../tendencies/tendencies.module.js';
import { TermsModule } from '../terms/terms.module.js';
import { FilmController } from './film.controller.js';
import { NextOpponentsService } from './next-opponents.service.js';
import { ReportMakerService } from './report-maker.service.js';
import { ForecastFreezing } from './forecast-freezing.js';
import { FilmNamesService } from './film-names.service.js';
import { ReportCardController } from './report-card.controller.js';
import { ReportCardRepository } from './report-card.repository.js';
import { ReportCardService } from './report-card.service.js';
import { ReportShelfController } from './report-shelf.controller.js';
import { ReportShelfRepository } from './report-shelf.repository.js';
import { ReportShelfService } from './report-shelf.service.js';
import { RoundReportsController } from './round-reports.controller.js';
import { RoundReportsRepository } from './round-reports.repository.js';
import { RoundReportsService } from './round-reports.service.js';
import { LinkedReportController } from './linked-report.controller.js';
import { ShareLinksController } from './share-links.controller.js';
import { ShareLinksRepository } from './share-links.repository.js';
import { ShareLinksService } from './share-links.service.js';

@Module({
  imports: [
    AnswersModule,
    BracketsModule,
    ChartingQueueModule,
    CoachingPointsModule,
    EventsModule,
    OwnCallsModule,
    PlayersModule,
    TendenciesModule,
    TermsModule,
  ],
  controllers: [
    ReportShelfController,
    RoundReportsController,
    FilmController,
    ReportCardController,
    ShareLinksController,
    LinkedReportController,
  ],
  providers: [
    NextOpponentsService,
    ReportMakerService,
    ForecastFreezing,
    FilmNamesService,
    RoundReportsService,
    RoundReportsRepository,
    ReportCardRepository,
    ReportCardService,
    ReportShelfService,
    ReportShelfRepository,
    ShareLinksService,
    ShareLinksRepository,
    Clock,
  ],
  exports: [FilmNamesService, NextOpponentsService, ReportShelfService],
})
export class RoundReportsModule {}
