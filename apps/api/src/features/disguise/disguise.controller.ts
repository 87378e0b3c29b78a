import { Controller, Headers, Param, Query, Res } from '@nestjs/common';
import { ApiBearerAuth, ApiTags } from '@nestjs/swagger';
import type { Response } from 'express';
import { ReadsFigures, sendTagged } from '../../common/tagged-answer.js';
import { UuidPipe } from '../../common/uuid.pipe.js';
import { WithCredential, type Credential } from '../access/credential.js';
import { Needs } from '../access/needs.js';
import { DisguiseQuery, DisguiseResponse } from './disguise.dto.js';
import { DISGUISE_EXAMPLE } from './disguise.example.js';
import { DisguiseService } from './disguise.service.js';

@ApiTags('Scouting')
@ApiBearerAuth()
@Needs('profiles')
@Controller('v1/players/:playerId/disguise')
export class DisguiseController {
  constructor(private readonly disguise: DisguiseService) {}

  @ReadsFigures(
    DisguiseResponse,
    'Whether the shell lies: shown before the snap against played after it',
    DISGUISE_EXAMPLE,
  )
  async read(
    @WithCredential() credential: Credential,
    @Param('playerId', UuidPipe) playerId: string,
    @Query() query: DisguiseQuery,
    @Headers('if-none-match') heldTag: string | undefined,
    @Res() response: Response,
  ): Promise<void> {
    sendTagged(response, await this.disguise.read({ credential, playerId, query, heldTag }));
  }
}
