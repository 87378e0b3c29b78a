import { Controller, Headers, Param, Query, Req, Res } from '@nestjs/common';
import { ApiBearerAuth, ApiTags } from '@nestjs/swagger';
import type { Request, Response } from 'express';
import { accepted } from '../../common/accepted.js';
import { FIGURE_TYPES, ReadsFiguresOrSheet, sendTagged } from '../../common/tagged-answer.js';
import { UuidPipe } from '../../common/uuid.pipe.js';
import { WithCredential, type Credential } from '../access/credential.js';
import { Needs } from '../access/needs.js';
import { TELLS_EXAMPLE, TELLS_SHEET } from './tells.example.js';
import { TellsQuery, TellsResponse } from './tells.dto.js';
import { TellsService } from './tells.service.js';

@ApiTags('Scouting')
@ApiBearerAuth()
@Needs('profiles')
@Controller('v1/players/:playerId/tells')
export class TellsController {
  constructor(private readonly tells: TellsService) {}

  @ReadsFiguresOrSheet(
    TellsResponse,
    "What gives a player's calls away before the snap, and leads to it",
    TELLS_EXAMPLE,
    TELLS_SHEET,
  )
  async read(
    @WithCredential() credential: Credential,
    @Param('playerId', UuidPipe) playerId: string,
    @Query() query: TellsQuery,
    @Headers('if-none-match') heldTag: string | undefined,
    @Req() request: Request,
    @Res() response: Response,
  ): Promise<void> {
    const type = accepted(request, FIGURE_TYPES);
    sendTagged(response.vary('Accept'), await this.tells.read({ credential, playerId, query, heldTag, type }), type);
  }
}
