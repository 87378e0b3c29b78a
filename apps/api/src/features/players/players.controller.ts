import { Body, Controller, Param, Query } from '@nestjs/common';
import { ApiBearerAuth, ApiTags } from '@nestjs/swagger';
import { WithChange, WithIfMatch, type Change } from '../../common/change.js';
import { WithCreation, type Creation } from '../../common/creation.js';
import { Changes, Creates, ReadsOne, ReadsPage, Removes } from '../../common/resource.decorators.js';
import { UuidPipe } from '../../common/uuid.pipe.js';
import { WithCredential, type Credential } from '../access/credential.js';
import { Needs } from '../access/needs.js';
import { PlayerInput, PlayerPage, PlayerResponse, PlayersQuery } from './players.dto.js';
import { PlayersService } from './players.service.js';

@ApiTags('Archive')
@ApiBearerAuth()
@Controller('v1/players')
export class PlayersController {
  constructor(private readonly players: PlayersService) {}

  @ReadsPage('', PlayerPage, PlayerResponse, "The clan's players, by handle")
  @Needs('profiles')
  list(@WithCredential() credential: Credential, @Query() query: PlayersQuery): Promise<PlayerPage> {
    return this.players.list(credential, query);
  }

  @Creates('', PlayerResponse, 'Keep a record of a player')
  create(
    @WithCredential() credential: Credential,
    @WithCreation() creation: Creation,
    @Body() input: PlayerInput,
  ): Promise<PlayerResponse> {
    return this.players.create(credential, creation, input);
  }

  @ReadsOne(':playerId', PlayerResponse, 'A player, of yours or of an event that you can read')
  @Needs('profiles')
  read(
    @WithCredential() credential: Credential,
    @Param('playerId', UuidPipe) playerId: string,
  ): Promise<PlayerResponse> {
    return this.players.read(credential, playerId);
  }

  @Changes(':playerId', PlayerInput, PlayerResponse, "Change a player's handle, aliases or link")
  change(
    @WithCredential() credential: Credential,
    @Param('playerId', UuidPipe) playerId: string,
    @WithChange() change: Change,
  ): Promise<PlayerResponse> {
    return this.players.change(credential, playerId, change);
  }

  @Removes(':playerId', 'Remove a player who is in no event and no game')
  remove(
    @WithCredential() credential: Credential,
    @Param('playerId', UuidPipe) playerId: string,
    @WithIfMatch() ifMatch: string,
  ): Promise<void> {
    return this.players.remove(credential, playerId, ifMatch);
  }

  @Creates(':playerId/adoption', PlayerResponse, 'Make a record of your own of a published player, linked to it', {
    under: '/v1/players',
  })
  adopt(
    @WithCredential() credential: Credential,
    @WithCreation() creation: Creation,
    @Param('playerId', UuidPipe) playerId: string,
  ): Promise<PlayerResponse> {
    return this.players.adopt(credential, creation, playerId);
  }
}
