import { ApiProperty, ApiPropertyOptional } from '@nestjs/swagger';
import { Transform } from 'class-transformer';
import { IsIn, IsNumber, IsOptional, IsUUID, Max, Min } from 'class-validator';

/** Whom it is about, and whose calls are answered. */
export class OpponentQuery {
  @ApiProperty({ format: 'uuid', description: 'the opponent' })
  @IsUUID()
  playerId!: string;

  @ApiPropertyOptional({
    enum: ['offense', 'defense'],
    default: 'offense',
    description: "the opponent's side that is answered: its offense by our defense, or its defense by our offense",
  })
  @IsOptional()
  @IsIn(['offense', 'defense'])
  side: 'offense' | 'defense' = 'offense';

  @ApiPropertyOptional({ type: Number, minimum: 0.5, maximum: 0.99, description: 'of every interval', default: 0.9 })
  @IsOptional()
  @Transform(({ value }) => Number(value))
  @IsNumber({ allowNaN: false, allowInfinity: false })
  @Min(0.5)
  @Max(0.99)
  confidence = 0.9;
}
