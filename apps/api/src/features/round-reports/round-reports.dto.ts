import { ApiProperty, ApiPropertyOptional } from '@nestjs/swagger';
import { IsOptional, IsUUID } from 'class-validator';
import { IsDay } from '../../common/is-day.js';
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

  @ApiPropertyOptional({
    format: 'date',
    example: '2026-03-01',
    description: 'as things stood before this day: only games that were played earlier count, for the field too',
  })
  @IsOptional()
  @IsDay()
  asOf?: string;

  @IsVisibleTo() visibleTo?: VisibleTo | null;
}
