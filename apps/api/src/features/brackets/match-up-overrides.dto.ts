import { ApiProperty, ApiPropertyOptional } from '@nestjs/swagger';
import { IsNumber, IsOptional, IsString, IsUUID, Length, Max, Min } from 'class-validator';
import { EXAMPLE_IDS } from '../../common/examples.js';
import { PageLink } from '../../common/page.dto.js';

const PROBABILITY = { minimum: 0.01, maximum: 0.99, example: 0.35 } as const;
const REASON = { type: String, nullable: true, maxLength: 500, example: 'has never beaten a three-man rush' } as const;

export class MatchUpOverrideInput {
  @ApiProperty({ format: 'uuid', example: EXAMPLE_IDS.player, description: 'one of your players' })
  @IsUUID()
  playerId!: string;

  @ApiProperty({ format: 'uuid', example: EXAMPLE_IDS.opponent, description: 'another one' })
  @IsUUID()
  opponentId!: string;

  @ApiProperty({ ...PROBABILITY, description: 'that the player wins a game, whatever the ratings say' })
  @IsNumber()
  @Min(0.01)
  @Max(0.99)
  winProbability!: number;

  @ApiPropertyOptional(REASON)
  @IsOptional()
  @IsString()
  @Length(0, 500)
  reason?: string | null;
}

export class MatchUpOverrideResponse {
  @ApiProperty({ format: 'uuid', example: EXAMPLE_IDS.match }) id!: string;
  @ApiProperty({ format: 'uuid', example: EXAMPLE_IDS.player }) playerId!: string;
  @ApiProperty({ format: 'uuid', example: EXAMPLE_IDS.opponent }) opponentId!: string;
  @ApiProperty(PROBABILITY) winProbability!: number;
  @ApiProperty(REASON) reason!: string | null;
}

export class MatchUpOverridePage extends PageLink {
  @ApiProperty({ type: [MatchUpOverrideResponse] }) items!: MatchUpOverrideResponse[];
}
