import { Module } from '@nestjs/common';
import { ChartsModule } from '../charts/charts.module.js';
import { GamesController } from './games.controller.js';
import { GamesRepository } from './games.repository.js';
import { GamesService } from './games.service.js';

@Module({
  imports: [ChartsModule],
  controllers: [GamesController],
  providers: [GamesService, GamesRepository],
  exports: [GamesService],
})
export class GamesModule {}
