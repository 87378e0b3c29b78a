import { ApiProperty, ApiPropertyOptional, IntersectionType } from '@nestjs/swagger';
import { IsOptional, IsUUID } from 'class-validator';
import { EXAMPLE_IDS } from '../../common/examples.js';
import { LeanQuery } from '../../common/lean.query.js';
import { PaperQuery } from '../../common/paper-query.dto.js';
import { Confidence, WholeNumber } from '../../common/query-number.js';

export class CallSheetQuery extends IntersectionType(PaperQuery, LeanQuery) {
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
