import { Controller, Get, Param, Query } from '@nestjs/common';
import { ApiBearerAuth, ApiOkResponse, ApiOperation, ApiTags } from '@nestjs/swagger';
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
}
