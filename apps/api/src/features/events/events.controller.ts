import { Body, Controller, Param, Query } from '@nestjs/common';
import { ApiBearerAuth, ApiTags } from '@nestjs/swagger';
import { WithChange, WithIfMatch, type Change } from '../../common/change.js';
import { WithCreation, type Creation } from '../../common/creation.js';
import { Changes, Creates, ReadsOne, ReadsPage, Removes } from '../../common/resource.decorators.js';
import { UuidPipe } from '../../common/uuid.pipe.js';
import { WithCredential, type Credential } from '../access/credential.js';
import { BracketResponse, EventInput, EventPage, EventResponse, EventsQuery } from './events.dto.js';
import { EventsService } from './events.service.js';

@ApiTags('Archive')
@ApiBearerAuth()
@Controller('v1/events')
export class EventsController {
  constructor(private readonly events: EventsService) {}

  @ReadsPage('', EventPage, EventResponse, 'Events that the clan may see')
  list(@WithCredential() credential: Credential, @Query() query: EventsQuery): Promise<EventPage> {
    return this.events.list(credential, query);
  }

  @Creates('', EventResponse, 'Register an event')
  create(
    @WithCredential() credential: Credential,
    @WithCreation() creation: Creation,
    @Body() input: EventInput,
  ): Promise<EventResponse> {
    return this.events.create(credential, creation, input);
  }

  @ReadsOne(':eventId', EventResponse, 'An event')
  read(@WithCredential() credential: Credential, @Param('eventId', UuidPipe) eventId: string): Promise<EventResponse> {
    return this.events.read(credential, eventId);
  }

  @Changes(':eventId', EventInput, EventResponse, 'Change an event')
  change(
    @WithCredential() credential: Credential,
    @Param('eventId', UuidPipe) eventId: string,
    @WithChange() change: Change,
  ): Promise<EventResponse> {
    return this.events.change(credential, eventId, change);
  }

  @Removes(':eventId', 'Remove an event with its entrants and matches; one that has games is kept')
  remove(
    @WithCredential() credential: Credential,
    @Param('eventId', UuidPipe) eventId: string,
    @WithIfMatch() ifMatch: string,
  ): Promise<void> {
    return this.events.remove(credential, eventId, ifMatch);
  }

  @ReadsOne(':eventId/bracket', BracketResponse, 'An event with its matches in the order of the bracket')
  bracket(
    @WithCredential() credential: Credential,
    @Param('eventId', UuidPipe) eventId: string,
  ): Promise<BracketResponse> {
    return this.events.bracket(credential, eventId);
  }

  @Creates(':eventId/adoption', EventResponse, 'Make an event of your own from one that another clan published', {
    under: '/v1/events',
  })
  adopt(
    @WithCredential() credential: Credential,
    @WithCreation() creation: Creation,
    @Param('eventId', UuidPipe) eventId: string,
  ): Promise<EventResponse> {
    return this.events.adopt(credential, creation, eventId);
  }
}
