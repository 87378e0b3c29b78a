import { Module } from '@nestjs/common';
import { EventsModule } from '../events/events.module.js';
import { PlayersModule } from '../players/players.module.js';
import { TendenciesModule } from '../tendencies/tendencies.module.js';
import { TrendsController } from './trends.controller.js';
import { TrendsService } from './trends.service.js';

@Module({
  imports: [EventsModule, PlayersModule, TendenciesModule],
  controllers: [TrendsController],
  providers: [TrendsService],
  exports: [TrendsService],
})
export class TrendsModule {}
