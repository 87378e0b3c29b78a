import { ApiProperty } from '@nestjs/swagger';
import { EXAMPLE_IDS } from './examples.js';

/** What every answer about a player's tendencies begins with. */
export class AnswerHeadResponse {
  @ApiProperty({ format: 'uuid', example: EXAMPLE_IDS.player }) playerId!: string;
  @ApiProperty({ example: 'Mossback' }) handle!: string;
  @ApiProperty({ enum: ['offense', 'defense'] }) side!: string;
  @ApiProperty({ example: 0.9, description: 'of every interval' }) confidence!: number;
  @ApiProperty({ nullable: true, type: String, example: '2026-03-01', description: 'date of the newest game' })
  newestGame!: string | null;
  @ApiProperty({
    example: 'rests on 240 plays of 8 games',
    description: 'what the answer rests on, and what it cannot say',
  })
  restsOn!: string;
}
