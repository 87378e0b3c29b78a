import { Controller, Get, Param, Query } from '@nestjs/common';
import { ApiBearerAuth, ApiOkResponse, ApiOperation, ApiTags } from '@nestjs/swagger';
import { UuidPipe } from '../../common/uuid.pipe.js';
import { WithCredential, type Credential } from '../access/credential.js';
import { Needs } from '../access/needs.js';
import { LateGameQuery, LateGameResponse } from './late-game.dto.js';
import { LateGameService } from './late-game.service.js';

@ApiTags('Scouting')
@ApiBearerAuth()
@Needs('profiles')
@Controller('v1/players/:playerId/late-game')
export class LateGameController {
  constructor(private readonly late: LateGameService) {}

  @Get()
  @ApiOperation({ summary: 'Late in a game: one point or two, onside or deep, kneel, burn the clock or stop it' })
  @ApiOkResponse({ type: LateGameResponse })
  read(
    @WithCredential() credential: Credential,
    @Param('playerId', UuidPipe) playerId: string,
    @Query() query: LateGameQuery,
  ): Promise<LateGameResponse> {
    return this.late.read(credential, playerId, query);
  }
}
