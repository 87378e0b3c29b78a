import { Controller, Get, Headers, Param, Query, Res } from '@nestjs/common';
import { ApiBearerAuth, ApiOkResponse, ApiOperation, ApiTags } from '@nestjs/swagger';
import type { Response } from 'express';
import { UuidPipe } from '../../common/uuid.pipe.js';
import { WithCredential, type Credential } from '../access/credential.js';
import { ProfileQuery, ProfileResponse } from './profile.dto.js';
import { ProfileService } from './profile.service.js';

@ApiTags('Scouting')
@ApiBearerAuth()
@Controller('v1/players/:playerId/profile')
export class ProfileController {
  constructor(private readonly profiles: ProfileService) {}

  @Get()
  @ApiOperation({ summary: 'What a player does, by situation, with counts, intervals and the field beside it' })
  @ApiOkResponse({ type: ProfileResponse })
  async read(
    @WithCredential() credential: Credential,
    @Param('playerId', UuidPipe) playerId: string,
    @Query() query: ProfileQuery,
    @Headers('if-none-match') heldTag: string | undefined,
    @Res() response: Response,
  ): Promise<void> {
    const { etag, body } = await this.profiles.read(credential, playerId, query, heldTag);
    response.setHeader('ETag', etag).setHeader('Cache-Control', 'private, no-cache');
    if (body === null) response.status(304).end();
    else response.type('application/json').send(body);
  }
}
