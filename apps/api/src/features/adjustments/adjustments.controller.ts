import { Controller, Headers, Param, Query, Res } from '@nestjs/common';
import { ApiBearerAuth, ApiTags } from '@nestjs/swagger';
import type { Response } from 'express';
import { ReadsFigures, sendTagged } from '../../common/tagged-answer.js';
import { UuidPipe } from '../../common/uuid.pipe.js';
import { WithCredential, type Credential } from '../access/credential.js';
import { Needs } from '../access/needs.js';
import { AdjustmentsQuery, AdjustmentsResponse } from './adjustments.dto.js';
import { ADJUSTMENTS_EXAMPLE } from './adjustments.example.js';
import { AdjustmentsService } from './adjustments.service.js';

@ApiTags('Scouting')
@ApiBearerAuth()
@Needs('profiles')
@Controller('v1/players/:playerId/adjustments')
export class AdjustmentsController {
  constructor(private readonly adjustments: AdjustmentsService) {}

  @ReadsFigures(
    AdjustmentsResponse,
    'The duel before the snap as a tree, and how the player answers what is shown',
    ADJUSTMENTS_EXAMPLE,
  )
  async read(
    @WithCredential() credential: Credential,
    @Param('playerId', UuidPipe) playerId: string,
    @Query() query: AdjustmentsQuery,
    @Headers('if-none-match') heldTag: string | undefined,
    @Res() response: Response,
  ): Promise<void> {
    sendTagged(response, await this.adjustments.read({ credential, playerId, query, heldTag }));
  }
}
