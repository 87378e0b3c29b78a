import { Controller, Headers, Param, Query, Res } from '@nestjs/common';
import { ApiBearerAuth, ApiTags } from '@nestjs/swagger';
import type { Response } from 'express';
import { ReadsFigures, sendTagged } from '../../common/tagged-answer.js';
import { UuidPipe } from '../../common/uuid.pipe.js';
import { WithCredential, type Credential } from '../access/credential.js';
import { Needs } from '../access/needs.js';
import { PointOfAttackQuery, PointOfAttackResponse } from './point-of-attack.dto.js';
import { POINT_OF_ATTACK_EXAMPLE } from './point-of-attack.example.js';
import { PointOfAttackService } from './point-of-attack.service.js';

@ApiTags('Scouting')
@ApiBearerAuth()
@Needs('profiles')
@Controller('v1/players/:playerId/point-of-attack')
export class PointOfAttackController {
  constructor(private readonly pointOfAttack: PointOfAttackService) {}

  @ReadsFigures(
    PointOfAttackResponse,
    'Where the ball was meant to go against where it went, and what came of being forced',
    POINT_OF_ATTACK_EXAMPLE,
  )
  async read(
    @WithCredential() credential: Credential,
    @Param('playerId', UuidPipe) playerId: string,
    @Query() query: PointOfAttackQuery,
    @Headers('if-none-match') heldTag: string | undefined,
    @Res() response: Response,
  ): Promise<void> {
    sendTagged(response, await this.pointOfAttack.read({ credential, playerId, query, heldTag }));
  }
}
