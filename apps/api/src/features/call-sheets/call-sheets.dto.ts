import { ApiProperty, ApiPropertyOptional } from '@nestjs/swagger';
import { IsOptional, IsUUID } from 'class-validator';
import { EXAMPLE_IDS } from '../../common/examples.js';
import { PaperQuery } from '../../common/paper-query.dto.js';
import { Confidence, RealNumber, WholeNumber } from '../../common/query-number.js';

export class CallSheetQuery extends PaperQuery {
  @ApiProperty({ format: 'uuid', example: EXAMPLE_IDS.event, description: 'the event' })
  @IsUUID()
  eventId!: string;

  @ApiProperty({ format: 'uuid', example: EXAMPLE_IDS.player, description: 'for whom' })
  @IsUUID()
  playerId!: string;

  @ApiPropertyOptional({
    format: 'uuid',
    example: EXAMPLE_IDS.opponent,
    description: 'against whom, if not whoever the bracket says is next',
  })
  @IsOptional()
  @IsUUID()
  opponentId?: string;

  @RealNumber({
    minimum: 0,
    maximum: 1,
    default: 0.33,
    description: '0 holds whatever they do, 1 is the best against what they do now',
  })
  lean = 0.33;

  @WholeNumber({
    minimum: 0,
    maximum: 1_000_000,
    default: 0,
    description: 'of the order in which mixes are to be called; the same seed on the same film prints the same sheet',
  })
  seed = 0;

  @Confidence()
  confidence = 0.9;
}
