import { ApiProperty } from '@nestjs/swagger';
import { CONTINUITY_FIELDS } from '#domain/football/continuity.js';
import { EXAMPLE_IDS } from '../../common/examples.js';

/** A play that does not follow from the one before it: a question to whoever charted, never a correction. */
export class ContinuityBreakOfChart {
  @ApiProperty({ type: 'integer', example: 12 }) playNumber!: number;
  @ApiProperty({ type: 'integer', example: 12 }) orderInGame!: number;
  @ApiProperty({ type: 'integer', example: 11 }) previousPlayNumber!: number;
  @ApiProperty({ enum: CONTINUITY_FIELDS, example: 'down' }) field!: string;
  @ApiProperty({ example: '3', description: 'as charted' }) found!: string;
  @ApiProperty({ example: '2', description: 'what would follow' }) expected!: string;
  @ApiProperty({ example: 'the down is 3, but 2 follows from play 11' }) message!: string;
}

export class ContinuityResponse {
  @ApiProperty({ format: 'uuid', example: EXAMPLE_IDS.chart }) chartId!: string;
  @ApiProperty({ type: 'integer', example: 4, description: 'of the chart that was looked at' }) revision!: number;
  @ApiProperty({ type: [ContinuityBreakOfChart], description: 'in the order of the game' })
  breaks!: ContinuityBreakOfChart[];
}
