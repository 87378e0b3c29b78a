import { Body, Controller, Param, Query } from '@nestjs/common';
import { ApiBearerAuth, ApiBody, ApiQuery, ApiTags } from '@nestjs/swagger';
import { WithChange, WithIfMatch, type Change } from '../../common/change.js';
import { WithCreation, type Creation } from '../../common/creation.js';
import { NumberPipe } from '../../common/number.pipe.js';
import { Changes, Creates, ReadsOne, ReadsPage, Removes } from '../../common/resource.decorators.js';
import { UuidPipe } from '../../common/uuid.pipe.js';
import { WithCredential, type Credential } from '../access/credential.js';
import { PlayInput, PlayPage, PlayResponse } from './plays.dto.js';
import { PlaysParameters, type PlaysQuery } from './plays.query.js';
import { PlaysService } from './plays.service.js';

@ApiTags('Charting')
@ApiBearerAuth()
@Controller('v1')
export class PlaysController {
  constructor(private readonly plays: PlaysService) {}

  @ReadsPage('charts/:chartId/plays', PlayPage, PlayResponse, 'Plays of a chart, in the order of the game')
  @PlaysParameters()
  ofChart(
    @WithCredential() credential: Credential,
    @Param('chartId', UuidPipe) chartId: string,
    @Query() query: PlaysQuery,
  ): Promise<PlayPage> {
    return this.plays.ofChart(credential, chartId, query);
  }

  @ReadsPage('games/:gameId/plays', PlayPage, PlayResponse, 'Plays of a game, chart by chart')
  @PlaysParameters()
  ofGame(
    @WithCredential() credential: Credential,
    @Param('gameId', UuidPipe) gameId: string,
    @Query() query: PlaysQuery,
  ): Promise<PlayPage> {
    return this.plays.ofGame(credential, gameId, query);
  }

  @ReadsPage('players/:playerId/plays', PlayPage, PlayResponse, 'Plays of a player, of the charts that count')
  @ApiQuery({ name: 'side', required: false, enum: ['offense', 'defense'], description: 'offense unless asked for' })
  @PlaysParameters()
  ofPlayer(
    @WithCredential() credential: Credential,
    @Param('playerId', UuidPipe) playerId: string,
    @Query() query: PlaysQuery,
  ): Promise<PlayPage> {
    return this.plays.ofPlayer(credential, playerId, query);
  }

  @Creates('charts/:chartId/plays', PlayResponse, 'Chart one play', { key: 'playNumber' })
  @ApiBody({ type: PlayInput })
  add(
    @WithCredential() credential: Credential,
    @WithCreation() creation: Creation,
    @Param('chartId', UuidPipe) chartId: string,
    @Body() body: Record<string, unknown>,
  ): Promise<PlayResponse> {
    return this.plays.add(credential, creation, chartId, body);
  }

  @ReadsOne('charts/:chartId/plays/:playNumber', PlayResponse, 'A play')
  read(
    @WithCredential() credential: Credential,
    @Param('chartId', UuidPipe) chartId: string,
    @Param('playNumber', NumberPipe) playNumber: number,
  ): Promise<PlayResponse> {
    return this.plays.read(credential, chartId, playNumber);
  }

  @Changes('charts/:chartId/plays/:playNumber', PlayInput, PlayResponse, 'Change what was charted of a play')
  change(
    @WithCredential() credential: Credential,
    @Param('chartId', UuidPipe) chartId: string,
    @Param('playNumber', NumberPipe) playNumber: number,
    @WithChange() change: Change,
  ): Promise<PlayResponse> {
    return this.plays.change(credential, chartId, playNumber, change);
  }

  @Removes('charts/:chartId/plays/:playNumber', 'Remove a play; its number is not given again')
  remove(
    @WithCredential() credential: Credential,
    @Param('chartId', UuidPipe) chartId: string,
    @Param('playNumber', NumberPipe) playNumber: number,
    @WithIfMatch() ifMatch: string,
  ): Promise<void> {
    return this.plays.remove(credential, chartId, playNumber, ifMatch);
  }
}
