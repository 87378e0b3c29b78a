import { Controller, Headers, Param, Query, Res } from '@nestjs/common';
import { ApiBearerAuth, ApiTags } from '@nestjs/swagger';
import type { Response } from 'express';
import { ReadsComputed, sendTagged, taggedBy } from '../../common/tagged-answer.js';
import { UuidPipe } from '../../common/uuid.pipe.js';
import { WithCredential, type Credential } from '../access/credential.js';
import { Needs } from '../access/needs.js';
import { NextOpponentsQuery, NextOpponentsResponse } from './preparation.dto.js';
import { PreparationService } from './preparation.service.js';

@ApiTags('Next opponent')
@ApiBearerAuth()
@Needs('profiles')
@Controller('v1/events/:eventId/next-opponents')
export class PreparationController {
  constructor(private readonly preparation: PreparationService) {}

  @ReadsComputed('', NextOpponentsResponse, 'The next match in a few minutes: who, what to know, watch and change')
  async read(
    @WithCredential() credential: Credential,
    @Param('eventId', UuidPipe) eventId: string,
    @Query() query: NextOpponentsQuery,
    @Headers('if-none-match') heldTag: string | undefined,
    @Res() response: Response,
  ): Promise<void> {
    sendTagged(response, taggedBy(await this.preparation.read(credential, eventId, query), heldTag));
  }
}
