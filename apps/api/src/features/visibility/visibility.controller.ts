import { applyDecorators, Body, Controller, Param, Put, UseGuards } from '@nestjs/common';
import { ApiBearerAuth, ApiOkResponse, ApiOperation, ApiTags } from '@nestjs/swagger';
import { WithIfMatch } from '../../common/change.js';
import { IF_MATCH, ReadsOne } from '../../common/resource.decorators.js';
import { OneAnswer } from '../../common/resource.answers.js';
import { UuidPipe } from '../../common/uuid.pipe.js';
import { WithCredential, type Credential } from '../access/credential.js';
import { Needs } from '../access/needs.js';
import { RecordVisibilityInput, RecordVisibility } from './visibility.dto.js';
import { VisibilityService } from './visibility.service.js';

function Reads(path: string, what: string): MethodDecorator {
  return ReadsOne(path, RecordVisibility, `Who reads ${what} of yours`);
}

function Chooses(path: string, what: string): MethodDecorator {
  return applyDecorators(
    Put(path),
    Needs('manage'),
    ApiOperation({ summary: `Choose who reads ${what}, from the next request of anybody on` }),
    IF_MATCH,
    ApiOkResponse({ type: RecordVisibility }),
    UseGuards(new OneAnswer(RecordVisibility)),
  );
}

@ApiTags('Sharing')
@ApiBearerAuth()
@Controller('v1')
export class VisibilityController {
  constructor(private readonly visibility: VisibilityService) {}

  @Reads('events/:eventId/visibility', 'an event')
  ofEvent(
    @WithCredential() credential: Credential,
    @Param('eventId', UuidPipe) eventId: string,
  ): Promise<RecordVisibility> {
    return this.visibility.read(credential, 'event', eventId);
  }

  @Chooses('events/:eventId/visibility', 'an event of yours, with its bracket, games, charts and plays')
  setOfEvent(
    @WithCredential() credential: Credential,
    @Param('eventId', UuidPipe) eventId: string,
    @WithIfMatch() ifMatch: string,
    @Body() input: RecordVisibilityInput,
  ): Promise<RecordVisibility> {
    return this.visibility.set(credential, 'event', eventId, ifMatch, input);
  }

  @Reads('games/:gameId/visibility', 'a game')
  ofGame(
    @WithCredential() credential: Credential,
    @Param('gameId', UuidPipe) gameId: string,
  ): Promise<RecordVisibility> {
    return this.visibility.read(credential, 'game', gameId);
  }

  @Chooses('games/:gameId/visibility', 'a game of yours, with its film, charts and plays')
  setOfGame(
    @WithCredential() credential: Credential,
    @Param('gameId', UuidPipe) gameId: string,
    @WithIfMatch() ifMatch: string,
    @Body() input: RecordVisibilityInput,
  ): Promise<RecordVisibility> {
    return this.visibility.set(credential, 'game', gameId, ifMatch, input);
  }

  @Reads('players/:playerId/visibility', 'a record of a player')
  ofPlayer(
    @WithCredential() credential: Credential,
    @Param('playerId', UuidPipe) playerId: string,
  ): Promise<RecordVisibility> {
    return this.visibility.read(credential, 'player', playerId);
  }

  @Chooses('players/:playerId/visibility', 'a record of a player of yours')
  setOfPlayer(
    @WithCredential() credential: Credential,
    @Param('playerId', UuidPipe) playerId: string,
    @WithIfMatch() ifMatch: string,
    @Body() input: RecordVisibilityInput,
  ): Promise<RecordVisibility> {
    return this.visibility.set(credential, 'player', playerId, ifMatch, input);
  }
}
