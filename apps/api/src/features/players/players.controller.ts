import { Controller, Get, Query } from '@nestjs/common';
import { ApiBearerAuth, ApiOkResponse, ApiOperation, ApiTags } from '@nestjs/swagger';
import { NamePageQuery } from '../../common/page.dto.js';
import { WithCredential, type Credential } from '../access/credential.js';
import { PlayerPage } from './players.dto.js';
import { PlayersService } from './players.service.js';

@ApiTags('Archive')
@ApiBearerAuth()
@Controller('v1/players')
export class PlayersController {
  constructor(private readonly players: PlayersService) {}

  @Get()
  @ApiOperation({ summary: "The clan's players, by handle" })
  @ApiOkResponse({ type: PlayerPage })
  list(@WithCredential() credential: Credential, @Query() query: NamePageQuery): Promise<PlayerPage> {
    return this.players.list(credential, query);
  }
}
