import { ApiProperty } from '@nestjs/swagger';
import { IsUUID } from 'class-validator';
import { EXAMPLE_IDS } from './examples.js';

/** Whose event it is seen from. */
export class PlayerInEventQuery {
  @ApiProperty({ format: 'uuid', example: EXAMPLE_IDS.player, description: 'an entrant of the event, as a player' })
  @IsUUID()
  player!: string;
}
