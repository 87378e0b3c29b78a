import { Controller, Headers, Param, Query, Res } from '@nestjs/common';
import { ApiBearerAuth, ApiTags } from '@nestjs/swagger';
import type { Response } from 'express';
import { ReadsFigures, sendTagged } from '../../common/tagged-answer.js';
import { UuidPipe } from '../../common/uuid.pipe.js';
import { WithCredential, type Credential } from '../access/credential.js';
import { Needs } from '../access/needs.js';
import { FourthDownQuery, FourthDownResponse } from './fourth-down.dto.js';
import { FourthDownService } from './fourth-down.service.js';

@ApiTags('Scouting')
@ApiBearerAuth()
@Needs('profiles')
@Controller('v1/players/:playerId/fourth-down')
export class FourthDownController {
  constructor(private readonly fourthDowns: FourthDownService) {}

  @ReadsFigures(FourthDownResponse, 'Go, kick or punt, with our own figures; and what the opponent does there')
  async read(
    @WithCredential() credential: Credential,
    @Param('playerId', UuidPipe) playerId: string,
    @Query() query: FourthDownQuery,
    @Headers('if-none-match') heldTag: string | undefined,
    @Res() response: Response,
  ): Promise<void> {
    sendTagged(response, await this.fourthDowns.read(credential, playerId, query, heldTag));
  }
}
