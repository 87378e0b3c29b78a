import { Module } from '@nestjs/common';
import { ChartsModule } from '../charts/charts.module.js';
import { EventsModule } from '../events/events.module.js';
import { PlayersModule } from '../players/players.module.js';
import { TermsModule } from '../terms/terms.module.js';
import { TendenciesService } from './tendencies.service.js';
import { TendencyAnswersService } from './tendency-answers.service.js';
import { TendencyWishesService } from './tendency-wishes.service.js';

@Module({
  imports: [ChartsModule, EventsModule, PlayersModule, TermsModule],
  providers: [TendenciesService, TendencyWishesService, TendencyAnswersService],
  exports: [TendenciesService, TendencyAnswersService],
})
export class TendenciesModule {}
