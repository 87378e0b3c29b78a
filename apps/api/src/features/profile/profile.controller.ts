import { Controller, Headers, Param, Query, Res } from '@nestjs/common';
import { ApiBearerAuth, ApiTags } from '@nestjs/swagger';
import type { Response } from 'express';
import { ReadsFigures, sendTagged } from '../../common/tagged-answer.js';
import { UuidPipe } from '../../common/uuid.pipe.js';
import { WithCredential, type Credential } from '../access/credential.js';
import { Needs } from '../access/needs.js';
import { ProfileQuery, ProfileResponse } from './profile.dto.js';
import { PROFILE_EXAMPLE } from './profile.example.js';
import { ProfileService } from './profile.service.js';

@ApiTags('Scouting')
@ApiBearerAuth()
@Needs('profiles')
@Controller('v1/players/:playerId/profile')
export class ProfileController {
  constructor(private readonly profiles: ProfileService) {}

  @ReadsFigures(
    ProfileResponse,
    'What a player does, by situation, with counts, intervals and the field beside it',
    PROFILE_EXAMPLE,
  )
  async read(
    @WithCredential() credential: Credential,
    @Param('playerId', UuidPipe) playerId: string,
    @Query() query: ProfileQuery,
    @Headers('if-none-match') heldTag: string | undefined,
    @Res() response: Response,
  ): Promise<void> {
    sendTagged(response, await this.profiles.read({ credential, playerId, query, heldTag }));
  }
}
