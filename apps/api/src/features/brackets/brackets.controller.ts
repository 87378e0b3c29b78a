import { Body, Controller, Headers, HttpCode, Param, Post, Put, Query, Res } from '@nestjs/common';
import { ApiBearerAuth, ApiCreatedResponse, ApiOkResponse, ApiOperation, ApiTags } from '@nestjs/swagger';
import type { Response } from 'express';
import { WithIfMatch } from '../../common/change.js';
import { WithCreation, type Creation } from '../../common/creation.js';
import { IDEMPOTENCY_KEY, IF_MATCH } from '../../common/resource.decorators.js';
import { ReadsComputed, sendTagged, taggedBy } from '../../common/tagged-answer.js';
import { UuidPipe } from '../../common/uuid.pipe.js';
import { WithCredential, type Credential } from '../access/credential.js';
import { Needs } from '../access/needs.js';
import { BracketInput, BracketMadeResponse, ResultInput, ResultResponse } from './brackets.dto.js';
import { BracketsService } from './brackets.service.js';
import { MeetingOddsQuery, MeetingOddsResponse, RatingsResponse } from './odds.dto.js';
import { OddsService } from './odds.service.js';
import { RatingsService } from './ratings.service.js';

@ApiTags('Next opponent')
@ApiBearerAuth()
@Controller('v1')
export class BracketsController {
  constructor(
    private readonly brackets: BracketsService,
    private readonly odds: OddsService,
    private readonly ratings: RatingsService,
  ) {}

  @Post('events/:eventId/bracket')
  @ApiOperation({ summary: 'Make the bracket of an event of yours, from its entrants or as entered' })
  @IDEMPOTENCY_KEY
  @ApiCreatedResponse({ type: BracketMadeResponse })
  make(
    @WithCredential() credential: Credential,
    @WithCreation() creation: Creation,
    @Param('eventId', UuidPipe) eventId: string,
    @Body() input: BracketInput,
  ): Promise<BracketMadeResponse> {
    return this.brackets.make(credential, creation, eventId, input);
  }

  @Put('events/:eventId/matches/:matchId/result')
  @HttpCode(200)
  @ApiOperation({ summary: 'Enter, correct or take back a result; whoever moves by it is moved' })
  @IF_MATCH
  @ApiOkResponse({ type: ResultResponse })
  enterResult(
    @WithCredential() credential: Credential,
    @Param('eventId', UuidPipe) eventId: string,
    @Param('matchId', UuidPipe) matchId: string,
    @WithIfMatch() ifMatch: string,
    @Body() input: ResultInput,
  ): Promise<ResultResponse> {
    return this.brackets.enterResult(credential, { eventId, matchId, ifMatch }, input);
  }

  @ReadsComputed(
    'events/:eventId/meeting-odds',
    MeetingOddsResponse,
    'Whom a player will probably meet in which round, and who wins the event',
  )
  @Needs('profiles')
  async meetingOdds(
    @WithCredential() credential: Credential,
    @Param('eventId', UuidPipe) eventId: string,
    @Query() query: MeetingOddsQuery,
    @Headers('if-none-match') heldTag: string | undefined,
    @Res() response: Response,
  ): Promise<void> {
    sendTagged(response, taggedBy(await this.odds.read(credential, eventId, query), heldTag));
  }

  @ReadsComputed(
    'ratings',
    RatingsResponse,
    'How strong everybody is by the results in view: Glicko-2, each event a rating period',
  )
  @Needs('profiles')
  async listRatings(
    @WithCredential() credential: Credential,
    @Headers('if-none-match') heldTag: string | undefined,
    @Res() response: Response,
  ): Promise<void> {
    sendTagged(response, taggedBy(await this.ratings.list(credential), heldTag));
  }
}
