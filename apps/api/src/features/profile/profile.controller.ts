import { Controller, Headers, Param, Query, Req, Res } from '@nestjs/common';
import { ApiBearerAuth, ApiTags } from '@nestjs/swagger';
import type { Request, Response } from 'express';
import { accepted } from '../../common/accepted.js';
import { FIGURE_TYPES, ReadsFiguresOrSheet, sendTagged } from '../../common/tagged-answer.js';
import { UuidPipe } from '../../common/uuid.pipe.js';
import { WithCredential, type Credential } from '../access/credential.js';
import { Needs } from '../access/needs.js';
import { ProfileQuery, ProfileResponse } from './profile.dto.js';
import { PROFILE_EXAMPLE, PROFILE_SHEET } from './profile.example.js';
import { ProfileService } from './profile.service.js';

@ApiTags('Scouting')
@ApiBearerAuth()
@Needs('profiles')
@Controller('v1/players/:playerId/profile')
export class ProfileController {
  constructor(private readonly profiles: ProfileService) {}

  @ReadsFiguresOrSheet(
    ProfileResponse,
    'What a player does, by situation, with counts, intervals and the field beside it',
    PROFILE_EXAMPLE,
    PROFILE_SHEET,
  )
  async read(
    @WithCredential() credential: Credential,
    @Param('playerId', UuidPipe) playerId: string,
    @Query() query: ProfileQuery,
    @Headers('if-none-match') heldTag: string | undefined,
    @Req() request: Request,
    @Res() response: Response,
  ): Promise<void> {
    const type = accepted(request, FIGURE_TYPES);
    sendTagged(response.vary('Accept'), await this.profiles.read({ credential, playerId, query, heldTag, type }), type);
  }
}
