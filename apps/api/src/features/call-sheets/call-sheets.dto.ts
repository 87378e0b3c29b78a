import { ApiProperty, ApiPropertyOptional } from '@nestjs/swagger';
import { Transform } from 'class-transformer';
import { IsInt, IsNumber, IsOptional, IsUUID, Max, Min } from 'class-validator';
import { EXAMPLE_IDS } from '../../common/examples.js';
import { PaperQuery } from '../../common/paper-query.dto.js';

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

  @ApiPropertyOptional({
    type: Number,
    minimum: 0,
    maximum: 1,
    default: 0.33,
    description: '0 holds whatever they do, 1 is the best against what they do now',
  })
  @IsOptional()
  @Transform(({ value }) => Number(value))
  @IsNumber({ allowNaN: false, allowInfinity: false })
  @Min(0)
  @Max(1)
  lean = 0.33;

  @ApiPropertyOptional({
    type: Number,
    minimum: 0,
    maximum: 1_000_000,
    default: 0,
    description: 'of the order in which mixes are to be called; the same seed on the same film prints the same sheet',
  })
  @IsOptional()
  @Transform(({ value }) => Number(value))
  @IsInt()
  @Min(0)
  @Max(1_000_000)
  seed = 0;

  @ApiPropertyOptional({ type: Number, minimum: 0.5, maximum: 0.99, default: 0.9, description: 'of every interval' })
  @IsOptional()
  @Transform(({ value }) => Number(value))
  @IsNumber({ allowNaN: false, allowInfinity: false })
  @Min(0.5)
  @Max(0.99)
  confidence = 0.9;
}
