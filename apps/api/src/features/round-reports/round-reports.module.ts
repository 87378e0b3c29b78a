import { Module } from '@nestjs/common';
import { Clock } from '../../common/clock.js';
import { EventsModule } from '../events/events.module.js';
import { PlayersModule } from '../players/players.module.js';
import { TendenciesModule } from '../tendencies/tendencies.module.js';
import { FilmController } from './film.controller.js';
import { RoundReportsController } from './round-reports.controller.js';
import { RoundReportsRepository } from './round-reports.repository.js';
import { RoundReportsService } from './round-reports.service.js';

@Module({
  imports: [EventsModule, PlayersModule, TendenciesModule],
  controllers: [RoundReportsController, FilmController],
  providers: [RoundReportsService, RoundReportsRepository, Clock],
})
export class RoundReportsModule {}
