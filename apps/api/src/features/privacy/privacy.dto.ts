import { ApiProperty } from '@nestjs/swagger';
import { IsIn } from 'class-validator';
import { EXAMPLE_IDS } from '../../common/examples.js';

const PLAYS = ['keep', 'remove'] as const;

export class ErasureInput {
  @ApiProperty({
    enum: PLAYS,
    example: 'keep',
    description:
      'keep: the plays stay under a pseudonym; remove: all games of the player go, and reports on the player',
  })
  @IsIn(PLAYS)
  plays!: (typeof PLAYS)[number];
}

export class ErasureResponse {
  @ApiProperty({ format: 'uuid', example: EXAMPLE_IDS.player }) playerId!: string;
  @ApiProperty({
    type: String,
    nullable: true,
    example: 'player 3f9a02c1',
    description: 'how the record is called from now on; null where nothing of it is left',
  })
  pseudonym!: string | null;
}

const ROWS = { type: 'array', items: { type: 'object', additionalProperties: true }, example: [] } as const;

export class PlayerExport {
  @ApiProperty({ type: 'object', additionalProperties: true, example: { handle: 'Mossback' } })
  player!: Record<string, unknown>;
  @ApiProperty(ROWS) aliases!: object[];
  @ApiProperty(ROWS) entrants!: object[];
  @ApiProperty(ROWS) games!: object[];
  @ApiProperty(ROWS) films!: object[];
  @ApiProperty({ ...ROWS, description: 'every field as stored; numbers of terms are ids of /v1/terms' })
  plays!: object[];
  @ApiProperty(ROWS) coachingPoints!: object[];
  @ApiProperty(ROWS) roundReports!: object[];
  @ApiProperty({ ...ROWS, description: 'what was done to the record' }) audit!: object[];
}
