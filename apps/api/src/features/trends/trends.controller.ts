import { Controller, Headers, Query, Res } from '@nestjs/common';
import { ApiBearerAuth, ApiTags } from '@nestjs/swagger';
import type { Response } from 'express';
import { ReadsFigures, sendTagged } from '../../common/tagged-answer.js';
import { WithCredential, type Credential } from '../access/credential.js';
import { Needs } from '../access/needs.js';
import { TrendsQuery, TrendsResponse } from './trends.dto.js';
import { TRENDS_EXAMPLE } from './trends.example.js';
import { TrendsService } from './trends.service.js';

@ApiTags('Scouting')
@ApiBearerAuth()
@Needs('profiles')
@Controller('v1/trends')
export class TrendsController {
  constructor(private readonly trends: TrendsService) {}

  @ReadsFigures(
    TrendsResponse,
    'Which calls spread through the events and which fade, by whom and with what result',
    TRENDS_EXAMPLE,
  )
  async read(
    @WithCredential() credential: Credential,
    @Query() query: TrendsQuery,
    @Headers('if-none-match') heldTag: string | undefined,
    @Res() response: Response,
  ): Promise<void> {
    sendTagged(response, await this.trends.read(credential, query, heldTag));
  }
}
