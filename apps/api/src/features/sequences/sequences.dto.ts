import { ApiProperty, ApiPropertyOptional } from '@nestjs/swagger';
import { IsIn, IsOptional } from 'class-validator';
import { AnswerHeadResponse } from '../../common/answer-head.dto.js';
import { ALL_DIMENSIONS } from '../../common/asked-dimension.js';
import { CountResponse, IntervalResponse, ValueResponse } from '../../common/figures.dto.js';
import { PlayReferenceResponse } from '../../common/play-reference.dto.js';
import { EvidencedShareResponse, ValueCountResponse } from '../../common/value-count.js';
import { WholeGamesQuery } from '../tendencies/tendency-query.dto.js';
import { WholeNumber } from '../../common/query-number.js';

export class SequencesQuery extends WholeGamesQuery {
  @ApiPropertyOptional({
    enum: ALL_DIMENSIONS,
    description: 'what is followed from snap to snap; call family on offense, coverage on defense when left out',
  })
  @IsOptional()
  @IsIn(ALL_DIMENSIONS)
  dimension?: string;

  @WholeNumber({
    minimum: 1,
    maximum: 30,
    default: 15,
    description: 'snaps that open a game or a half',
  })
  openers = 15;
}

export class OpenerSnapResponse extends PlayReferenceResponse {
  @ApiProperty({ type: ValueResponse, nullable: true, description: 'null where it was not charted' })
  value!: ValueResponse | null;
}

export class OpenerGameResponse {
  @ApiProperty({ format: 'uuid' }) gameId!: string;
  @ApiProperty({ type: [OpenerSnapResponse], description: 'in the order in which they were played' })
  snaps!: OpenerSnapResponse[];
}

export class OpenerValueResponse extends ValueCountResponse {
  @ApiProperty({ type: CountResponse, description: 'the same on later snaps' }) later!: CountResponse;
  @ApiProperty({ type: IntervalResponse, nullable: true, description: 'share among the openers less that later' })
  difference!: IntervalResponse | null;
}

export class OpenersResponse {
  @ApiProperty({ enum: ['game', 'second half'] }) of!: string;
  @ApiProperty({ type: [OpenerGameResponse] }) games!: OpenerGameResponse[];
  @ApiProperty({ type: [OpenerValueResponse], description: 'all openers together' }) values!: OpenerValueResponse[];
}

export class MatchTestResponse {
  @ApiProperty({ example: 12 }) matches!: number;
  @ApiProperty({ example: 9.4, description: 'by chance, inside situation and game' }) expected!: number;
  @ApiProperty({ example: 0.14 }) pValue!: number;
  @ApiProperty({ example: 25, description: 'pairs where chance had a choice' }) informative!: number;
}

export class RepeatResponse extends EvidencedShareResponse {
  @ApiProperty({ enum: ['success', 'failure'] }) after!: string;
  @ApiProperty({
    type: Number,
    nullable: true,
    example: 0.35,
    description: "share that the player's own other snaps in the situations would lead one to expect",
  })
  anyway!: number | null;
  @ApiProperty({ example: 28, description: 'pairs that this rests on' }) expectedOf!: number;
  @ApiProperty({ type: MatchTestResponse, nullable: true, description: 'null where nothing can be compared' })
  test!: MatchTestResponse | null;
}

export class ReactionValueResponse extends ValueCountResponse {
  @ApiProperty({ type: CountResponse, description: "the same on the player's other snaps" }) otherwise!: CountResponse;
  @ApiProperty({ type: IntervalResponse, nullable: true, description: 'share after it less that otherwise' })
  difference!: IntervalResponse | null;
  @ApiProperty({ type: Number, nullable: true, description: 'against own other snaps, inside situation and game' })
  pValue!: number | null;
  @ApiProperty({ type: Number, nullable: true, description: 'against the field after the same' })
  fieldPValue!: number | null;
}

export class ReactionResponse {
  @ApiProperty({ enum: ['sack', 'turnover', 'explosive play'] }) event!: string;
  @ApiProperty({ example: 9, description: 'snaps that came next' }) snaps!: number;
  @ApiProperty({ example: 8 }) known!: number;
  @ApiProperty({ type: [ReactionValueResponse] }) values!: ReactionValueResponse[];
}

export class SituationOrderResponse extends EvidencedShareResponse {
  @ApiProperty({ example: '2nd and 7-10' }) situation!: string;
  @ApiProperty({ type: Number, nullable: true, description: 'of the table of calls before and after, by itself' })
  pValue!: number | null;
}

export class OrderResponse {
  @ApiProperty() words!: string;
  @ApiProperty({ enum: ['drive', 'half'], description: 'within which two snaps follow each other' }) within!: string;
  @ApiProperty({
    type: Number,
    nullable: true,
    description: 'all situations together, inside situation and game; null where nothing can be compared',
  })
  pValue!: number | null;
  @ApiProperty({ type: [SituationOrderResponse], description: 'snaps that do what the one before did' })
  situations!: SituationOrderResponse[];
}

export class SequencesResponse extends AnswerHeadResponse {
  @ApiProperty({ example: 'callFamily' }) dimension!: string;
  @ApiProperty({ example: 'call family' }) dimensionLabel!: string;
  @ApiProperty({ example: 240, description: 'counting snaps' }) snaps!: number;
  @ApiProperty({ example: 213 }) known!: number;
  @ApiProperty({ type: [OpenersResponse] }) openers!: OpenersResponse[];
  @ApiProperty({ type: [RepeatResponse] }) repeats!: RepeatResponse[];
  @ApiProperty({ type: [ReactionResponse] }) reactions!: ReactionResponse[];
  @ApiProperty({ type: OrderResponse }) order!: OrderResponse;
}
