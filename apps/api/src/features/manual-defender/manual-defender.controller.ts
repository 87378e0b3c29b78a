import { Controller, Headers, Param, Query, Res } from '@nestjs/common';
import { ApiBearerAuth, ApiTags } from '@nestjs/swagger';
import type { Response } from 'express';
import { ReadsFigures, sendTagged } from '../../common/tagged-answer.js';
import { UuidPipe } from '../../common/uuid.pipe.js';
import { WithCredential, type Credential } from '../access/credential.js';
import { Needs } from '../access/needs.js';
import { ManualDefenderQuery, ManualDefenderResponse } from './manual-defender.dto.js';
import { MANUAL_DEFENDER_EXAMPLE } from './manual-defender.example.js';
import { ManualDefenderService } from './manual-defender.service.js';

@ApiTags('Scouting')
@ApiBearerAuth()
@Needs('profiles')
@Controller('v1/players/:playerId/manual-defender')
export class ManualDefenderController {
  constructor(private readonly manualDefender: ManualDefenderService) {}

  @ReadsFigures(
    ManualDefenderResponse,
    'Where the controlled defender starts, what it does, and what that leaves open',
    MANUAL_DEFENDER_EXAMPLE,
  )
  async read(
    @WithCredential() credential: Credential,
    @Param('playerId', UuidPipe) playerId: string,
    @Query() query: ManualDefenderQuery,
    @Headers('if-none-match') heldTag: string | undefined,
    @Res() response: Response,
  ): Promise<void> {
    sendTagged(response, await this.manualDefender.read({ credential, playerId, query, heldTag }));
  }
}
