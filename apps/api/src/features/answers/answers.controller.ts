import { Controller, Headers, Query, Res } from '@nestjs/common';
import { ApiBearerAuth, ApiTags } from '@nestjs/swagger';
import type { Response } from 'express';
import { ReadsFigures, sendTagged } from '../../common/tagged-answer.js';
import { WithCredential, type Credential } from '../access/credential.js';
import { Needs } from '../access/needs.js';
import { AnswersQuery, AnswersResponse } from './answers.dto.js';
import { ANSWERS_EXAMPLE } from './answers.example.js';
import { AnswersService } from './answers.service.js';

@ApiTags('Scouting')
@ApiBearerAuth()
@Needs('profiles')
@Controller('v1/answers')
export class AnswersController {
  constructor(private readonly answers: AnswersService) {}

  @ReadsFigures(
    AnswersResponse,
    "What has held a call of the opponent's: games, answers of our own and others by stage, and what they cost",
    ANSWERS_EXAMPLE,
  )
  async read(
    @WithCredential() credential: Credential,
    @Query() query: AnswersQuery,
    @Headers('if-none-match') heldTag: string | undefined,
    @Res() response: Response,
  ): Promise<void> {
    sendTagged(response, await this.answers.read(credential, query, heldTag));
  }
}
