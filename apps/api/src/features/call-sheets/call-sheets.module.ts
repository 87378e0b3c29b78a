import { Module } from '@nestjs/common';
import { AnswersModule } from '../answers/answers.module.js';
import { EventsModule } from '../events/events.module.js';
import { PlayersModule } from '../players/players.module.js';
import { RoundReportsModule } from '../round-reports/round-reports.module.js';
import { TendenciesModule } from '../tendencies/tendencies.module.js';
import { CallSheetsController } from './call-sheets.controller.js';
import { CallSheetsService } from './call-sheets.service.js';
import { FourthDownController } from './fourth-down.controller.js';
import { FourthDownService } from './fourth-down.service.js';
import { LateGameController } from './late-game.controller.js';
import { LateGameService } from './late-game.service.js';
import { OurFiguresService } from './our-figures.service.js';

@Module({
  imports: [AnswersModule, EventsModule, PlayersModule, RoundReportsModule, TendenciesModule],
  controllers: [CallSheetsController, FourthDownController, LateGameController],
  providers: [CallSheetsService, FourthDownService, LateGameService, OurFiguresService],
  exports: [CallSheetsService],
})
export class CallSheetsModule {}
