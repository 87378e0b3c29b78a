import { ApiProperty, ApiPropertyOptional } from '@nestjs/swagger';
import { IsOptional, IsUUID } from 'class-validator';
import { IsVisibleTo, type VisibleTo } from '../../common/visible-to.repository.js';
import { EXAMPLE_IDS } from '../../common/examples.js';

export class MakeRoundReport {
  @ApiProperty({ format: 'uuid', example: EXAMPLE_IDS.event, description: 'the event' })
  @IsUUID()
  eventId!: string;

  @ApiPropertyOptional({
    format: 'uuid',
    example: EXAMPLE_IDS.player,
    description: 'for whom; the next opponent follows from the bracket',
  })
  @IsOptional()
  @IsUUID()
  playerId?: string;

  @ApiPropertyOptional({
    format: 'uuid',
    example: EXAMPLE_IDS.opponent,
    description: 'on whom, if not on whoever the bracket says is next',
  })
  @IsOptional()
  @IsUUID()
  opponentId?: string;

  @IsVisibleTo() visibleTo?: VisibleTo | null;
}
