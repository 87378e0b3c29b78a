import { ApiProperty, ApiPropertyOptional } from '@nestjs/swagger';
import { IsIn, IsInt, IsISO8601, IsOptional, IsUUID, Max, Min } from 'class-validator';
import { EXAMPLE_IDS } from '../../common/examples.js';
import { PageLink } from '../../common/page.dto.js';
import { MATCH_STATUS } from '../../common/words-of-events.js';

const ENTRANT = { type: String, format: 'uuid', nullable: true } as const;
const WINS = { type: 'integer', nullable: true, minimum: 0, maximum: 9, example: null } as const;
const SCHEDULED = { type: String, format: 'date-time', nullable: true, example: '2026-03-01T18:00:00Z' } as const;

export class MatchInput {
  @ApiProperty({ type: 'integer', minimum: 1, maximum: 30, example: 1 })
  @IsInt()
  @Min(1)
  @Max(30)
  round!: number;

  @ApiProperty({
    type: 'integer',
    minimum: 1,
    maximum: 4096,
    example: 1,
    description: 'place within the round; places 2p-1 and 2p feed place p of the next round',
  })
  @IsInt()
  @Min(1)
  @Max(4096)
  position!: number;

  @ApiPropertyOptional({ ...ENTRANT, example: EXAMPLE_IDS.entrant })
  @IsOptional()
  @IsUUID()
  homeEntrantId?: string | null;

  @ApiPropertyOptional({ ...ENTRANT, example: null })
  @IsOptional()
  @IsUUID()
  awayEntrantId?: string | null;

  @ApiPropertyOptional({ ...ENTRANT, example: null, description: 'one of the two' })
  @IsOptional()
  @IsUUID()
  winnerEntrantId?: string | null;

  @ApiPropertyOptional({ type: 'integer', minimum: 1, maximum: 9, default: 1 })
  @IsOptional()
  @IsInt()
  @Min(1)
  @Max(9)
  bestOf?: number | null;

  @ApiPropertyOptional(WINS)
  @IsOptional()
  @IsInt()
  @Min(0)
  @Max(9)
  homeWins?: number | null;

  @ApiPropertyOptional(WINS)
  @IsOptional()
  @IsInt()
  @Min(0)
  @Max(9)
  awayWins?: number | null;

  @ApiPropertyOptional({ enum: MATCH_STATUS, default: 'open' })
  @IsOptional()
  @IsIn(MATCH_STATUS)
  status?: string | null;

  @ApiPropertyOptional(SCHEDULED)
  @IsOptional()
  @IsISO8601({ strict: true })
  scheduledAt?: string | null;
}

export class MatchResponse {
  @ApiProperty({ format: 'uuid', example: EXAMPLE_IDS.match }) id!: string;
  @ApiProperty({ format: 'uuid', example: EXAMPLE_IDS.event }) eventId!: string;
  @ApiProperty({ type: 'integer', example: 1 }) round!: number;
  @ApiProperty({ type: 'integer', example: 1 }) position!: number;
  @ApiProperty({ ...ENTRANT, example: EXAMPLE_IDS.entrant }) homeEntrantId!: string | null;
  @ApiProperty({ ...ENTRANT, example: null }) awayEntrantId!: string | null;
  @ApiProperty({ ...ENTRANT, example: null }) winnerEntrantId!: string | null;
  @ApiProperty({ type: 'integer', example: 1 }) bestOf!: number;
  @ApiProperty(WINS) homeWins!: number | null;
  @ApiProperty(WINS) awayWins!: number | null;
  @ApiProperty({ enum: MATCH_STATUS, example: 'open' }) status!: string;
  @ApiProperty(SCHEDULED) scheduledAt!: string | null;
}

export class MatchPage extends PageLink {
  @ApiProperty({ type: [MatchResponse] }) items!: MatchResponse[];
}
