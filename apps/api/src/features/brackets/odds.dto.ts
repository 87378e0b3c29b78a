import { ApiProperty, ApiPropertyOptional } from '@nestjs/swagger';
import { Type } from 'class-transformer';
import { IsIn, IsInt, IsOptional, Max, Min } from 'class-validator';
import { EXAMPLE_IDS } from '../../common/examples.js';
import { PlayerInEventQuery } from '../../common/player-in-event.query.js';

export class MeetingOddsQuery extends PlayerInEventQuery {
  @ApiPropertyOptional({
    enum: ['each match', 'whole event'],
    default: 'each match',
    description:
      'what is not known of the ratings: spread over each match, or drawn once an event, so that who is underrated is so in all matches (always simulated)',
  })
  @IsOptional()
  @IsIn(['each match', 'whole event'])
  uncertainty: 'each match' | 'whole event' = 'each match';

  @ApiPropertyOptional({
    type: 'integer',
    minimum: 100,
    maximum: 100_000,
    description: 'simulated events, where odds are simulated; 20,000, or 2,000 where tables are played out',
  })
  @IsOptional()
  @Type(() => Number)
  @IsInt()
  @Min(100)
  @Max(100_000)
  events?: number;

  @ApiPropertyOptional({ type: 'integer', minimum: 0, maximum: 2_147_483_647, default: 1 })
  @IsOptional()
  @Type(() => Number)
  @IsInt()
  @Min(0)
  @Max(2_147_483_647)
  seed = 1;
}

const PROBABILITY = { minimum: 0, maximum: 1, example: 0.42 } as const;
const ERROR = {
  type: Number,
  nullable: true,
  example: null,
  description: 'standard error of a simulated probability; null: exact',
} as const;

export class RoundOddsResponse {
  @ApiProperty({ example: 'semifinal' }) round!: string;
  @ApiProperty(PROBABILITY) probability!: number;
  @ApiProperty(ERROR) standardError!: number | null;
}

export class OpponentOddsResponse {
  @ApiProperty({ format: 'uuid', example: EXAMPLE_IDS.opponent }) playerId!: string;
  @ApiProperty({ example: 'Brass Heron' }) handle!: string;
  @ApiProperty({ ...PROBABILITY, description: 'of meeting at least once from here on' }) probability!: number;
  @ApiProperty(ERROR) standardError!: number | null;
  @ApiProperty({ type: [RoundOddsResponse], description: 'rounds in which they can meet' })
  rounds!: RoundOddsResponse[];
  @ApiProperty({ ...PROBABILITY, description: 'that the player wins a game against this opponent' })
  gameWinProbability!: number;
  @ApiProperty({ example: false, description: 'the clan set this match-up by hand' }) setByHand!: boolean;
}

export class EntrantOddsResponse {
  @ApiProperty({ format: 'uuid', example: EXAMPLE_IDS.player }) playerId!: string;
  @ApiProperty({ example: 'Mossback' }) handle!: string;
  @ApiProperty({ type: 'integer', nullable: true, example: 3 }) seed!: number | null;
  @ApiProperty({ example: 1587, description: 'Glicko-2, 1500 is a newcomer' }) rating!: number;
  @ApiProperty({ example: 92, description: 'standard deviation of what is known of it' }) deviation!: number;
  @ApiProperty({ type: 'integer', example: 9, description: 'games the rating rests on' }) games!: number;
  @ApiProperty({ type: [RoundOddsResponse], description: 'of playing in each round' }) plays!: RoundOddsResponse[];
  @ApiProperty({ type: [RoundOddsResponse], description: 'of the round being the last, without the title' })
  exits!: RoundOddsResponse[];
  @ApiProperty({ ...PROBABILITY, description: 'of winning the event' }) title!: number;
  @ApiProperty(ERROR) titleStandardError!: number | null;
}

export class MeetingOddsResponse {
  @ApiProperty({ format: 'uuid', example: EXAMPLE_IDS.event }) eventId!: string;
  @ApiProperty({ format: 'uuid', example: EXAMPLE_IDS.player }) playerId!: string;
  @ApiProperty({ example: 'Mossback' }) handle!: string;
  @ApiProperty({ enum: ['exact', 'simulated'], example: 'exact' }) method!: string;
  @ApiProperty({ type: 'integer', nullable: true, example: null }) simulatedEvents!: number | null;
  @ApiProperty({ enum: ['each match', 'whole event'], example: 'each match' }) uncertainty!: string;
  @ApiProperty({ example: 'Ratings rest on 84 games of 3 events in view; 2 match-ups were set by hand.' })
  restsOn!: string;
  @ApiProperty({ type: [OpponentOddsResponse], description: 'whom the player may still meet, the most probable first' })
  opponents!: OpponentOddsResponse[];
  @ApiProperty({ type: [EntrantOddsResponse], description: 'everybody, the favourite first' })
  entrants!: EntrantOddsResponse[];
}

export class RatingResponse {
  @ApiProperty({ format: 'uuid', example: EXAMPLE_IDS.player }) playerId!: string;
  @ApiProperty({ example: 'Mossback' }) handle!: string;
  @ApiProperty({ example: 1587 }) rating!: number;
  @ApiProperty({ example: 92 }) deviation!: number;
  @ApiProperty({ example: 0.06 }) volatility!: number;
  @ApiProperty({ type: 'integer', example: 9 }) games!: number;
}

export class RatingsResponse {
  @ApiProperty({ type: 'integer', example: 3, description: 'events with results, each a rating period' })
  events!: number;
  @ApiProperty({ type: 'integer', example: 84 }) games!: number;
  @ApiProperty({ type: [RatingResponse], description: 'the strongest first' }) players!: RatingResponse[];
}
