import { Controller, Headers, Param, Query, Res } from '@nestjs/common';
import { ApiBearerAuth, ApiTags } from '@nestjs/swagger';
import type { Response } from 'express';
import { ReadsFigures, sendTagged } from '../../common/tagged-answer.js';
import { UuidPipe } from '../../common/uuid.pipe.js';
import { WithCredential, type Credential } from '../access/credential.js';
import { Needs } from '../access/needs.js';
import { DecisionsQuery, DecisionsResponse } from './decisions.dto.js';
import { DECISIONS_EXAMPLE } from './decisions.example.js';
import { DecisionsService } from './decisions.service.js';

@ApiTags('Scouting')
@ApiBearerAuth()
@Needs('profiles')
@Controller('v1/players/:playerId/decisions')
export class DecisionsController {
  constructor(private readonly decisions: DecisionsService) {}

  @ReadsFigures(
    DecisionsResponse,
    'Fourth downs, tries, onside kicks, fakes, tempo, runs and timeouts against the field',
    DECISIONS_EXAMPLE,
  )
  async read(
    @WithCredential() credential: Credential,
    @Param('playerId', UuidPipe) playerId: string,
    @Query() query: DecisionsQuery,
    @Headers('if-none-match') heldTag: string | undefined,
    @Res() response: Response,
  ): Promise<void> {
    sendTagged(response, await this.decisions.read({ credential, playerId, query, heldTag }));
  }
}
