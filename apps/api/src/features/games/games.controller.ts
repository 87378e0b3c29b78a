import { Controller, Get, Query } from '@nestjs/common';
import { ApiBearerAuth, ApiOkResponse, ApiOperation, ApiTags } from '@nestjs/swagger';
import { WithCredential, type Credential } from '../access/credential.js';
import { GamePage } from './games.dto.js';
import { GamesQuery } from './games.query.js';
import { GamesService } from './games.service.js';

@ApiTags('Archive')
@ApiBearerAuth()
@Controller('v1/games')
export class GamesController {
  constructor(private readonly games: GamesService) {}

  @Get()
  @ApiOperation({ summary: 'Games that the clan may see, with their charts' })
  @ApiOkResponse({ type: GamePage })
  list(@WithCredential() credential: Credential, @Query() query: GamesQuery): Promise<GamePage> {
    return this.games.list(credential, query);
  }
}
