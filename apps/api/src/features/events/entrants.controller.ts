import { Body, Controller, Param, Query } from '@nestjs/common';
import { ApiBearerAuth, ApiTags } from '@nestjs/swagger';
import { WithChange, WithIfMatch, type Change } from '../../common/change.js';
import { WithCreation, type Creation } from '../../common/creation.js';
import { IdPageQuery } from '../../common/page.dto.js';
import { Changes, Creates, ReadsOne, ReadsPage, Removes } from '../../common/resource.decorators.js';
import { UuidPipe } from '../../common/uuid.pipe.js';
import { WithCredential, type Credential } from '../access/credential.js';
import { EntrantInput, EntrantPage, EntrantResponse } from './entrants.dto.js';
import { EntrantsService } from './entrants.service.js';

@ApiTags('Archive')
@ApiBearerAuth()
@Controller('v1/events/:eventId/entrants')
export class EntrantsController {
  constructor(private readonly entrants: EntrantsService) {}

  @ReadsPage('', EntrantPage, EntrantResponse, 'Who plays in an event')
  list(
    @WithCredential() credential: Credential,
    @Param('eventId', UuidPipe) eventId: string,
    @Query() query: IdPageQuery,
  ): Promise<EntrantPage> {
    return this.entrants.list(credential, eventId, query);
  }

  @Creates('', EntrantResponse, 'Enter a player in an event of yours')
  create(
    @WithCredential() credential: Credential,
    @WithCreation() creation: Creation,
    @Param('eventId', UuidPipe) eventId: string,
    @Body() input: EntrantInput,
  ): Promise<EntrantResponse> {
    return this.entrants.create(credential, creation, eventId, input);
  }

  @ReadsOne(':entrantId', EntrantResponse, 'An entrant')
  read(
    @WithCredential() credential: Credential,
    @Param('eventId', UuidPipe) eventId: string,
    @Param('entrantId', UuidPipe) entrantId: string,
  ): Promise<EntrantResponse> {
    return this.entrants.read(credential, eventId, entrantId);
  }

  @Changes(':entrantId', EntrantInput, EntrantResponse, 'Change seed, roster notes or grades of an entrant')
  change(
    @WithCredential() credential: Credential,
    @Param('eventId', UuidPipe) eventId: string,
    @Param('entrantId', UuidPipe) entrantId: string,
    @WithChange() change: Change,
  ): Promise<EntrantResponse> {
    return this.entrants.change(credential, eventId, entrantId, change);
  }

  @Removes(':entrantId', 'Remove an entrant who is in no match')
  remove(
    @WithCredential() credential: Credential,
    @Param('eventId', UuidPipe) eventId: string,
    @Param('entrantId', UuidPipe) entrantId: string,
    @WithIfMatch() ifMatch: string,
  ): Promise<void> {
    return this.entrants.remove(credential, eventId, entrantId, ifMatch);
  }
}
