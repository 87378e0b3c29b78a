import { Controller, Headers, Query, Res } from '@nestjs/common';
import { ApiBearerAuth, ApiTags } from '@nestjs/swagger';
import type { Response } from 'express';
import { ReadsFigures, sendTagged } from '../../common/tagged-answer.js';
import { WithCredential, type Credential } from '../access/credential.js';
import { Needs } from '../access/needs.js';
import { CallMixQuery, CallMixResponse } from './call-mix.dto.js';
import { CALL_MIX_EXAMPLE } from './call-mix.example.js';
import { CallMixService } from './call-mix.service.js';

@ApiTags('Scouting')
@ApiBearerAuth()
@Needs('profiles')
@Controller('v1/call-mix')
export class CallMixController {
  constructor(private readonly mixes: CallMixService) {}

  @ReadsFigures(
    CallMixResponse,
    "How to mix our calls against the opponent's, from safe to bold, with what each mix holds if they adjust",
    CALL_MIX_EXAMPLE,
  )
  async read(
    @WithCredential() credential: Credential,
    @Query() query: CallMixQuery,
    @Headers('if-none-match') heldTag: string | undefined,
    @Res() response: Response,
  ): Promise<void> {
    sendTagged(response, await this.mixes.read(credential, query, heldTag));
  }
}
