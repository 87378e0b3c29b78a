import { Body, Controller, Get, HttpCode, Param, Post } from '@nestjs/common';
import { ApiBearerAuth, ApiOkResponse, ApiOperation, ApiTags } from '@nestjs/swagger';
import { WithIfMatch } from '../../common/change.js';
import { IF_MATCH } from '../../common/resource.decorators.js';
import { UuidPipe } from '../../common/uuid.pipe.js';
import { WithCredential, type Credential } from '../access/credential.js';
import { Needs } from '../access/needs.js';
import { ErasureInput, ErasureResponse, PlayerExport } from './privacy.dto.js';
import { PrivacyService } from './privacy.service.js';

@ApiTags('Privacy')
@ApiBearerAuth()
@Needs('manage')
@Controller('v1/players/:playerId')
export class PrivacyController {
  constructor(private readonly privacy: PrivacyService) {}

  @Post('erasure')
  @HttpCode(200)
  @ApiOperation({
    summary: 'Erase who a player of yours is: handle, aliases, links, notes; the plays stay under a pseudonym, or go',
  })
  @IF_MATCH
  @ApiOkResponse({ type: ErasureResponse })
  erase(
    @WithCredential() credential: Credential,
    @Param('playerId', UuidPipe) playerId: string,
    @WithIfMatch() ifMatch: string,
    @Body() input: ErasureInput,
  ): Promise<ErasureResponse> {
    return this.privacy.erase(credential, playerId, ifMatch, input);
  }

  @Get('export')
  @ApiOperation({
    summary: 'Everything that your clan keeps about a player of yours; the audit says that it was asked',
  })
  @ApiOkResponse({ type: PlayerExport })
  export(
    @WithCredential() credential: Credential,
    @Param('playerId', UuidPipe) playerId: string,
  ): Promise<PlayerExport> {
    return this.privacy.export(credential, playerId);
  }
}
