import { ApiProperty, ApiPropertyOptional, PickType } from '@nestjs/swagger';
import { IsIn, IsOptional } from 'class-validator';
import { EXAMPLE_IDS } from '../../common/examples.js';
import { DrawnRateResponse, FourthDownQuery } from './fourth-down.dto.js';
import { WholeNumber } from '../../common/query-number.js';

export class LateGameQuery extends PickType(FourthDownQuery, ['eventId', 'opponentId', 'timeouts'] as const) {
  @WholeNumber({ minimum: 1, maximum: 4, default: 4 })
  quarter = 4;

  @WholeNumber({ required: true, minimum: 0, maximum: 900, example: 110, description: 'left in the quarter' })
  clockSeconds!: number;

  @WholeNumber({
    required: true,
    minimum: -99,
    maximum: 99,
    example: -2,
    description: 'ours less theirs; for a try with the touchdown counted',
  })
  scoreDifference!: number;

  @ApiPropertyOptional({ enum: ['us', 'them'], default: 'us', description: 'who has the ball, for the clock' })
  @IsOptional()
  @IsIn(['us', 'them'])
  ball: 'us' | 'them' = 'us';

  @WholeNumber({ minimum: 1, maximum: 4, default: 1, description: 'of whoever has the ball' })
  down = 1;

  @WholeNumber({ minimum: 1, maximum: 99, default: 75, description: 'of whoever has the ball' })
  yardsToGoal = 75;

  @WholeNumber({ minimum: 0, maximum: 3, default: 0 })
  theirTimeouts = 0;

  @WholeNumber({
    minimum: 0,
    maximum: 60,
    description:
      "that the event's clock runs from a play to the next snap if nobody hurries; 38 is believed without it",
  })
  runOffSeconds?: number;
}

export class WeighedResponse {
  @ApiProperty({ type: String, nullable: true, example: 'two', description: 'null where they are as good as equal' })
  best!: string | null;
  @ApiProperty({
    type: 'object',
    additionalProperties: { type: 'number' },
    example: { kick: 0, two: 0.21 },
    description: 'our chance to win with each',
  })
  chances!: Record<string, number>;
  @ApiProperty({ description: 'the same over the whole interval of the chance of ours that it hangs on' })
  stands!: boolean;
}

export class ClockAdviceResponse {
  @ApiProperty({ enum: ['kneel', 'burn', 'use timeouts', 'keep timeouts', 'hurry', 'play on'] }) do!: string;
  @ApiProperty({ example: 82, description: 'that whoever has the ball takes off by kneeling' }) kneelSeconds!: number;
  @ApiProperty({ example: 1, description: 'more sets of downs that run the clock out' }) setsToRunOut!: number;
}

export class LateFiguresResponse {
  @ApiProperty({ type: DrawnRateResponse }) twoPoint!: DrawnRateResponse;
  @ApiProperty({ type: DrawnRateResponse, description: 'kick after a touchdown' }) tryKick!: DrawnRateResponse;
  @ApiProperty({ type: DrawnRateResponse, description: 'onside kicks recovered' }) onside!: DrawnRateResponse;
  @ApiProperty({ type: DrawnRateResponse, description: 'touchdowns a drive of ours' }) touchdown!: DrawnRateResponse;
  @ApiProperty({ type: DrawnRateResponse, description: 'field goals a drive of ours' }) fieldGoal!: DrawnRateResponse;
  @ApiProperty({ type: DrawnRateResponse, description: 'touchdowns a drive of theirs' })
  theirTouchdown!: DrawnRateResponse;
  @ApiProperty({ type: DrawnRateResponse, description: 'field goals a drive of theirs' })
  theirFieldGoal!: DrawnRateResponse;
}

export class LateGameResponse {
  @ApiProperty({ format: 'uuid', example: EXAMPLE_IDS.player }) playerId!: string;
  @ApiProperty({ example: 'clock: burn; after a touchdown: two (two wins 21 %, kick 0 %)' }) words!: string;
  @ApiProperty({ example: 1.4, description: 'of both, after a try or a kick' }) drivesLeft!: number;
  @ApiProperty({ type: WeighedResponse }) twoPoint!: WeighedResponse;
  @ApiProperty({ type: WeighedResponse }) onside!: WeighedResponse;
  @ApiProperty({ type: ClockAdviceResponse }) clock!: ClockAdviceResponse;
  @ApiProperty({ type: LateFiguresResponse }) figures!: LateFiguresResponse;
  @ApiProperty({ type: [String], example: ['that overtime is even'], description: 'inputs that are believed' })
  guesses!: string[];
}
