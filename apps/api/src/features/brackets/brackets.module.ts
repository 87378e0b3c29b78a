import { Module } from '@nestjs/common';
import { EventsModule } from '../events/events.module.js';
import { PlayersModule } from '../players/players.module.js';
import { BracketsController } from './brackets.controller.js';
import { BracketsRepository } from './brackets.repository.js';
import { BracketsService } from './brackets.service.js';
import { MatchUpOverridesController } from './match-up-overrides.controller.js';
import { MatchUpOverridesRepository } from './match-up-overrides.repository.js';
import { MatchUpOverridesService } from './match-up-overrides.service.js';
import { OddsService } from './odds.service.js';
import { RatingsService } from './ratings.service.js';

@Module({
  imports: [EventsModule, PlayersModule],
  controllers: [BracketsController, MatchUpOverridesController],
  providers: [
    BracketsService,
    BracketsRepository,
    MatchUpOverridesService,
    MatchUpOverridesRepository,
    OddsService,
    RatingsService,
  ],
  exports: [OddsService],
})
export class BracketsModule {}
