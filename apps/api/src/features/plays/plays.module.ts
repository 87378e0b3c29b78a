import { Module } from '@nestjs/common';
import { ChartsModule } from '../charts/charts.module.js';
import { PlayersModule } from '../players/players.module.js';
import { TermsModule } from '../terms/terms.module.js';
import { PlaysController } from './plays.controller.js';
import { PlaysRepository } from './plays.repository.js';
import { PlaysService } from './plays.service.js';

@Module({
  imports: [ChartsModule, PlayersModule, TermsModule],
  controllers: [PlaysController],
  providers: [PlaysService, PlaysRepository],
})
export class PlaysModule {}
