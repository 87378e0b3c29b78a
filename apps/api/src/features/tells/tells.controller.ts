import { Controller, Headers, Param, Query, Res } from '@nestjs/common';
import { ApiBearerAuth, ApiTags } from '@nestjs/swagger';
import type { Response } from 'express';
import { ReadsFigures, sendTagged } from '../../common/tagged-answer.js';
import { UuidPipe } from '../../common/uuid.pipe.js';
import { WithCredential, type Credential } from '../access/credential.js';
import { Needs } from '../access/needs.js';
import { TELLS_EXAMPLE } from './tells.example.js';
import { TellsQuery, TellsResponse } from './tells.dto.js';
import { TellsService } from './tells.service.js';

@ApiTags('Scouting')
@ApiBearerAuth()
@Needs('profiles')
@Controller('v1/players/:playerId/tells')
export class TellsController {
  constructor(private readonly tells: TellsService) {}

  @ReadsFigures(TellsResponse, "What gives a player's calls away before the snap, and leads to it", TELLS_EXAMPLE)
  async read(
    @WithCredential() credential: Credential,
    @Param('playerId', UuidPipe) playerId: string,
    @Query() query: TellsQuery,
    @Headers('if-none-match') heldTag: string | undefined,
    @Res() response: Response,
  ): Promise<void> {
    sendTagged(response, await this.tells.read({ credential, playerId, query, heldTag }));
  }
}
