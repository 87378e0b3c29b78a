import { Module } from '@nestjs/common';
import { BracketsModule } from '../brackets/brackets.module.js';
import { EventsModule } from '../events/events.module.js';
import { PlayersModule } from '../players/players.module.js';
import { TendenciesModule } from '../tendencies/tendencies.module.js';
import { ChartingQueueController } from './charting-queue.controller.js';
import { ChartingQueueRepository } from './charting-queue.repository.js';
import { ChartingQueueService } from './charting-queue.service.js';

@Module({
  imports: [BracketsModule, EventsModule, PlayersModule, TendenciesModule],
  controllers: [ChartingQueueController],
  providers: [ChartingQueueService, ChartingQueueRepository],
  exports: [ChartingQueueService],
})
export class ChartingQueueModule {}
