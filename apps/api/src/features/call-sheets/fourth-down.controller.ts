import { Controller, Get, Param, Query } from '@nestjs/common';
import { ApiBearerAuth, ApiOkResponse, ApiOperation, ApiTags } from '@nestjs/swagger';
import { UuidPipe } from '../../common/uuid.pipe.js';
import { WithCredential, type Credential } from '../access/credential.js';
import { Needs } from '../access/needs.js';
import { FourthDownQuery, FourthDownResponse } from './fourth-down.dto.js';
import { FourthDownService } from './fourth-down.service.js';

@ApiTags('Scouting')
@ApiBearerAuth()
@Needs('profiles')
@Controller('v1/players/:playerId/fourth-down')
export class FourthDownController {
  constructor(private readonly fourthDowns: FourthDownService) {}

  @Get()
  @ApiOperation({ summary: 'Go, kick or punt, with our own figures; and what the opponent does there' })
  @ApiOkResponse({ type: FourthDownResponse })
  read(
    @WithCredential() credential: Credential,
    @Param('playerId', UuidPipe) playerId: string,
    @Query() query: FourthDownQuery,
  ): Promise<FourthDownResponse> {
    return this.fourthDowns.read(credential, playerId, query);
  }
}
