import { Controller, Delete, Get, HttpCode, Param, Put, Query } from '@nestjs/common';
import { ApiBearerAuth, ApiNoContentResponse, ApiOkResponse, ApiOperation, ApiTags } from '@nestjs/swagger';
import { IdPageQuery } from '../../common/page.dto.js';
import { UuidPipe } from '../../common/uuid.pipe.js';
import { WithCredential, type Credential } from '../access/credential.js';
import { BracketResponse, EventPage } from './events.dto.js';
import { EventsService } from './events.service.js';

@ApiTags('Archive')
@ApiBearerAuth()
@Controller('v1/events')
export class EventsController {
  constructor(private readonly events: EventsService) {}

  @Get()
  @ApiOperation({ summary: 'Events that the clan may see' })
  @ApiOkResponse({ type: EventPage })
  list(@WithCredential() credential: Credential, @Query() query: IdPageQuery): Promise<EventPage> {
    return this.events.list(credential, query);
  }

  @Get(':eventId')
  @ApiOperation({ summary: 'An event with its bracket' })
  @ApiOkResponse({ type: BracketResponse })
  bracket(
    @WithCredential() credential: Credential,
    @Param('eventId', UuidPipe) eventId: string,
  ): Promise<BracketResponse> {
    return this.events.bracket(credential, eventId);
  }

  @Put(':eventId/publication')
  @HttpCode(204)
  @ApiOperation({ summary: 'Open an event of yours to every clan: bracket, games, charts and plays' })
  @ApiNoContentResponse({ description: 'from the next request of anybody on' })
  publish(@WithCredential() credential: Credential, @Param('eventId', UuidPipe) eventId: string): Promise<void> {
    return this.events.publish(credential, eventId);
  }

  @Delete(':eventId/publication')
  @HttpCode(204)
  @ApiOperation({ summary: 'Withdraw an event that was open to every clan' })
  @ApiNoContentResponse({ description: 'from the next request of anybody on' })
  withdraw(@WithCredential() credential: Credential, @Param('eventId', UuidPipe) eventId: string): Promise<void> {
    return this.events.withdraw(credential, eventId);
  }
}
