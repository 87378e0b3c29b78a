import { Controller, Headers, Param, Query, Res } from '@nestjs/common';
import { ApiBearerAuth, ApiTags } from '@nestjs/swagger';
import type { Response } from 'express';
import { ReadsFigures, sendTagged } from '../../common/tagged-answer.js';
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

  @ReadsFigures(LateGameResponse, 'Late in a game: one point or two, onside or deep, kneel, burn the clock or stop it')
  async read(
    @WithCredential() credential: Credential,
    @Param('playerId', UuidPipe) playerId: string,
    @Query() query: LateGameQuery,
    @Headers('if-none-match') heldTag: string | undefined,
    @Res() response: Response,
  ): Promise<void> {
    sendTagged(response, await this.late.read(credential, playerId, query, heldTag));
  }
}
