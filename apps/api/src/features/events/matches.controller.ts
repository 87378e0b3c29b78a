import { Body, Controller, Param, Query } from '@nestjs/common';
import { ApiBearerAuth, ApiTags } from '@nestjs/swagger';
import { WithChange, WithIfMatch, type Change } from '../../common/change.js';
import { WithCreation, type Creation } from '../../common/creation.js';
import { IdPageQuery } from '../../common/page.dto.js';
import { Changes, Creates, ReadsOne, ReadsPage, Removes } from '../../common/resource.decorators.js';
import { UuidPipe } from '../../common/uuid.pipe.js';
import { WithCredential, type Credential } from '../access/credential.js';
import { MatchInput, MatchPage, MatchResponse } from './matches.dto.js';
import { MatchesService } from './matches.service.js';

@ApiTags('Archive')
@ApiBearerAuth()
@Controller('v1/events/:eventId/matches')
export class MatchesController {
  constructor(private readonly matches: MatchesService) {}

  @ReadsPage('', MatchPage, MatchResponse, 'Matches of an event')
  list(
    @WithCredential() credential: Credential,
    @Param('eventId', UuidPipe) eventId: string,
    @Query() query: IdPageQuery,
  ): Promise<MatchPage> {
    return this.matches.list(credential, eventId, query);
  }

  @Creates('', MatchResponse, 'Add a match to an event of yours')
  create(
    @WithCredential() credential: Credential,
    @WithCreation() creation: Creation,
    @Param('eventId', UuidPipe) eventId: string,
    @Body() input: MatchInput,
  ): Promise<MatchResponse> {
    return this.matches.create(credential, creation, eventId, input);
  }

  @ReadsOne(':matchId', MatchResponse, 'A match')
  read(
    @WithCredential() credential: Credential,
    @Param('eventId', UuidPipe) eventId: string,
    @Param('matchId', UuidPipe) matchId: string,
  ): Promise<MatchResponse> {
    return this.matches.read(credential, eventId, matchId);
  }

  @Changes(
    ':matchId',
    MatchInput,
    MatchResponse,
    'Change a match: who plays and when; how it ended is entered as a result',
  )
  change(
    @WithCredential() credential: Credential,
    @Param('eventId', UuidPipe) eventId: string,
    @Param('matchId', UuidPipe) matchId: string,
    @WithChange() change: Change,
  ): Promise<MatchResponse> {
    return this.matches.change(credential, eventId, matchId, change);
  }

  @Removes(':matchId', 'Remove a match; its games stay')
  remove(
    @WithCredential() credential: Credential,
    @Param('eventId', UuidPipe) eventId: string,
    @Param('matchId', UuidPipe) matchId: string,
    @WithIfMatch() ifMatch: string,
  ): Promise<void> {
    return this.matches.remove(credential, eventId, matchId, ifMatch);
  }
}
