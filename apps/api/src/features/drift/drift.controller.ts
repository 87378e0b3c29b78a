import { Controller, Headers, Param, Query, Res } from '@nestjs/common';
import { ApiBearerAuth, ApiTags } from '@nestjs/swagger';
import type { Response } from 'express';
import { ReadsFigures, sendTagged } from '../../common/tagged-answer.js';
import { UuidPipe } from '../../common/uuid.pipe.js';
import { WithCredential, type Credential } from '../access/credential.js';
import { Needs } from '../access/needs.js';
import { DriftQuery, DriftResponse } from './drift.dto.js';
import { DRIFT_EXAMPLE } from './drift.example.js';
import { DriftService } from './drift.service.js';

@ApiTags('Scouting')
@ApiBearerAuth()
@Needs('profiles')
@Controller('v1/players/:playerId/drift')
export class DriftController {
  constructor(private readonly drift: DriftService) {}

  @ReadsFigures(
    DriftResponse,
    'What moved between two stretches of games, between halves, or with the rules',
    DRIFT_EXAMPLE,
  )
  async read(
    @WithCredential() credential: Credential,
    @Param('playerId', UuidPipe) playerId: string,
    @Query() query: DriftQuery,
    @Headers('if-none-match') heldTag: string | undefined,
    @Res() response: Response,
  ): Promise<void> {
    sendTagged(response, await this.drift.read({ credential, playerId, query, heldTag }));
  }
}
