import { Module } from '@nestjs/common';
import { CallSheetsModule } from '../call-sheets/call-sheets.module.js';
import { EventsModule } from '../events/events.module.js';
import { PlayersModule } from '../players/players.module.js';
import { RoundReportsModule } from '../round-reports/round-reports.module.js';
import { PreparationController } from './preparation.controller.js';
import { PreparationService } from './preparation.service.js';

@Module({
  imports: [CallSheetsModule, EventsModule, PlayersModule, RoundReportsModule],
  controllers: [PreparationController],
  providers: [PreparationService],
})
export class PreparationModule {}
