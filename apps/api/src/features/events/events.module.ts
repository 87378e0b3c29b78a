import { Module } from '@nestjs/common';
import { AdoptionRepository } from './adoption.repository.js';
import { EntrantsController } from './entrants.controller.js';
import { EntrantsRepository } from './entrants.repository.js';
import { EntrantsService } from './entrants.service.js';
import { EventsController } from './events.controller.js';
import { EventsRepository } from './events.repository.js';
import { EventsService } from './events.service.js';
import { MatchesController } from './matches.controller.js';
import { MatchesRepository } from './matches.repository.js';
import { MatchesService } from './matches.service.js';

@Module({
  controllers: [EventsController, EntrantsController, MatchesController],
  providers: [
    EventsService,
    EventsRepository,
    AdoptionRepository,
    EntrantsService,
    EntrantsRepository,
    MatchesService,
    MatchesRepository,
  ],
  exports: [EventsService, MatchesService],
})
export class EventsModule {}
