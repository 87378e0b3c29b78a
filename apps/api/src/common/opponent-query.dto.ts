import { ApiProperty, ApiPropertyOptional } from '@nestjs/swagger';
import { IsIn, IsOptional, IsUUID } from 'class-validator';
import { Confidence } from './query-number.js';

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

  @Confidence()
  confidence = 0.9;
}
