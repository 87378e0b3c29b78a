import { Body, Controller, Param, Query } from '@nestjs/common';
import { ApiBearerAuth, ApiTags } from '@nestjs/swagger';
import { WithChange, WithIfMatch, type Change } from '../../common/change.js';
import { WithCreation, type Creation } from '../../common/creation.js';
import { Changes, Creates, ReadsOne, ReadsPage, Removes } from '../../common/resource.decorators.js';
import { UuidPipe } from '../../common/uuid.pipe.js';
import { WithCredential, type Credential } from '../access/credential.js';
import { GameInput, GamePage, GameResponse } from './games.dto.js';
import { GamesQuery } from './games.query.js';
import { GamesService } from './games.service.js';

@ApiTags('Archive')
@ApiBearerAuth()
@Controller('v1/games')
export class GamesController {
  constructor(private readonly games: GamesService) {}

  @ReadsPage('', GamePage, GameResponse, 'Games that the clan may see, with their film and charts')
  list(@WithCredential() credential: Credential, @Query() query: GamesQuery): Promise<GamePage> {
    return this.games.list(credential, query);
  }

  @Creates('', GameResponse, 'Keep a record of a game')
  create(
    @WithCredential() credential: Credential,
    @WithCreation() creation: Creation,
    @Body() input: GameInput,
  ): Promise<GameResponse> {
    return this.games.create(credential, creation, input);
  }

  @ReadsOne(':gameId', GameResponse, 'A game')
  read(@WithCredential() credential: Credential, @Param('gameId', UuidPipe) gameId: string): Promise<GameResponse> {
    return this.games.read(credential, gameId);
  }

  @Changes(':gameId', GameInput, GameResponse, 'Change what is known of a game; its charts stay')
  change(
    @WithCredential() credential: Credential,
    @Param('gameId', UuidPipe) gameId: string,
    @WithChange() change: Change,
  ): Promise<GameResponse> {
    return this.games.change(credential, gameId, change);
  }

  @Removes(':gameId', 'Remove a game with its film, charts, plays and own calls')
  remove(
    @WithCredential() credential: Credential,
    @Param('gameId', UuidPipe) gameId: string,
    @WithIfMatch() ifMatch: string,
  ): Promise<void> {
    return this.games.remove(credential, gameId, ifMatch);
  }
}
