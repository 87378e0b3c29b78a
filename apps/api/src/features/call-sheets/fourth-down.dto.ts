import { ApiProperty } from '@nestjs/swagger';
import { IsUUID } from 'class-validator';
import { EXAMPLE_IDS } from '../../common/examples.js';
import { CountResponse, FieldShareResponse, IntervalResponse } from '../../common/figures.dto.js';
import { EvidencedShareResponse } from '../../common/value-count.js';
import { WholeNumber } from '../../common/query-number.js';

export class FourthDownQuery {
  @ApiProperty({ format: 'uuid', description: 'whose fourth downs are looked at beside it' })
  @IsUUID()
  opponentId!: string;

  @ApiProperty({ format: 'uuid', description: 'the event, for the length of its quarters' })
  @IsUUID()
  eventId!: string;

  @WholeNumber({ required: true, minimum: 1, maximum: 99, example: 2, description: 'yards to go' })
  distance!: number;

  @WholeNumber({ required: true, minimum: 1, maximum: 99, example: 38 })
  yardsToGoal!: number;

  @WholeNumber({ minimum: 1, maximum: 4, default: 1 })
  quarter = 1;

  @WholeNumber({
    minimum: 0,
    maximum: 900,
    example: 190,
    description: 'left in the quarter; needed for what is left of the game',
  })
  clockSeconds?: number;

  @WholeNumber({ minimum: -99, maximum: 99, example: -4, description: 'ours less theirs' })
  scoreDifference?: number;

  @WholeNumber({ minimum: 0, maximum: 3, default: 0, description: 'ours' })
  timeouts = 0;
}

export class DrawnRateResponse {
  @ApiProperty({ type: CountResponse }) own!: CountResponse;
  @ApiProperty({ type: FieldShareResponse, nullable: true }) field!: FieldShareResponse | null;
  @ApiProperty({ example: 0.52, description: 'ours, drawn towards the field' }) share!: number;
  @ApiProperty({ type: IntervalResponse }) interval!: IntervalResponse;
  @ApiProperty({ example: false, description: 'rests on fewer than ten attempts of anybody' }) isGuess!: boolean;
}

export class ChoiceResponse {
  @ApiProperty({ enum: ['go', 'kick', 'punt'] }) choice!: string;
  @ApiProperty({ example: 1.12, description: 'points of the next score, ours above 0' }) points!: number;
  @ApiProperty({ type: IntervalResponse, nullable: true }) interval!: IntervalResponse | null;
  @ApiProperty({ type: DrawnRateResponse, nullable: true, description: 'our chance; null for a punt' })
  rate!: DrawnRateResponse | null;
  @ApiProperty({ type: Boolean, nullable: true, description: 'whether we are no longer behind once it works' })
  catchesUp!: boolean | null;
}

export class FourthDownResponse {
  @ApiProperty({ format: 'uuid', example: EXAMPLE_IDS.player }) playerId!: string;
  @ApiProperty({ example: 'go; a kick works 20 of 33 times in the field and leaves you 1 behind' }) words!: string;
  @ApiProperty({
    type: String,
    nullable: true,
    enum: ['go', 'kick', 'punt', null],
    description: 'null where the two best are as good as equal',
  })
  best!: string | null;
  @ApiProperty({ type: [ChoiceResponse], description: 'the best by points first' }) choices!: ChoiceResponse[];
  @ApiProperty({ type: Number, nullable: true, example: 2.1, description: 'of both, this one counted' })
  drivesLeft!: number | null;
  @ApiProperty({
    type: [String],
    example: ['what a timeout saves'],
    description: 'inputs that are believed, not counted',
  })
  guesses!: string[];
  @ApiProperty({
    type: EvidencedShareResponse,
    description: 'how often the opponent went for it at this distance, against the field',
  })
  them!: EvidencedShareResponse;
}
