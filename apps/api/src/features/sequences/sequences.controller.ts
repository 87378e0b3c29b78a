import { Controller, Headers, Param, Query, Res } from '@nestjs/common';
import { ApiBearerAuth, ApiTags } from '@nestjs/swagger';
import type { Response } from 'express';
import { ReadsFigures, sendTagged } from '../../common/tagged-answer.js';
import { UuidPipe } from '../../common/uuid.pipe.js';
import { WithCredential, type Credential } from '../access/credential.js';
import { Needs } from '../access/needs.js';
import { SequencesQuery, SequencesResponse } from './sequences.dto.js';
import { SEQUENCES_EXAMPLE } from './sequences.example.js';
import { SequencesService } from './sequences.service.js';

@ApiTags('Scouting')
@ApiBearerAuth()
@Needs('profiles')
@Controller('v1/players/:playerId/sequences')
export class SequencesController {
  constructor(private readonly sequences: SequencesService) {}

  @ReadsFigures(
    SequencesResponse,
    'What follows what: openers, repeats, reactions, and whether one call bears on the next',
    SEQUENCES_EXAMPLE,
  )
  async read(
    @WithCredential() credential: Credential,
    @Param('playerId', UuidPipe) playerId: string,
    @Query() query: SequencesQuery,
    @Headers('if-none-match') heldTag: string | undefined,
    @Res() response: Response,
  ): Promise<void> {
    sendTagged(response, await this.sequences.read({ credential, playerId, query, heldTag }));
  }
}
