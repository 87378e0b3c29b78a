import { ApiProperty } from '@nestjs/swagger';
import { AnswerHeadResponse } from '../../common/answer-head.dto.js';
import { CountResponse, IntervalResponse, ResultsResponse } from '../../common/figures.dto.js';
import { EvidencedShareResponse } from '../../common/value-count.js';
import { TestedQuery } from '../tendencies/tendency-query.dto.js';
import { RealNumber, WholeNumber } from '../../common/query-number.js';

export class AdjustmentsQuery extends TestedQuery {
  @WholeNumber({ minimum: 1, maximum: 8, default: 4, description: 'moves that are told apart' })
  depth = 4;

  @RealNumber({
    minimum: 0.01,
    maximum: 0.5,
    default: 0.05,
    description: 'false discovery rate of answers',
  })
  level = 0.05;
}

export class DuelStepResponse {
  @ApiProperty({
    type: String,
    enum: ['offense', 'defense'],
    nullable: true,
    description: "who moved; null for a clan's own term that stands for no starter term",
  })
  by!: 'offense' | 'defense' | null;
  @ApiProperty({ example: 'play mirrored' }) label!: string;
  @ApiProperty({ example: 402 }) termId!: number;
}

export class DuelNodeResponse extends EvidencedShareResponse {
  @ApiProperty({ type: DuelStepResponse, nullable: true, description: 'the last move; null at the root' })
  step!: DuelStepResponse | null;
  @ApiProperty({ example: 3, description: 'plays on which the ball was snapped here' }) snapped!: number;
  @ApiProperty({ type: ResultsResponse, description: 'of all plays that came this far' }) results!: ResultsResponse;
  @ApiProperty({ type: () => [DuelNodeResponse], description: 'what came next, most frequent first' })
  children!: DuelNodeResponse[];
}

export class DuelAnswerResponse extends EvidencedShareResponse {
  @ApiProperty({ type: DuelStepResponse, description: "the other side's move" }) shown!: DuelStepResponse;
  @ApiProperty({ type: DuelStepResponse, nullable: true, description: "the player's own; null for none at all" })
  answer!: DuelStepResponse | null;
  @ApiProperty({ type: CountResponse, description: 'the same where it was not shown' }) anyway!: CountResponse;
  @ApiProperty({ type: IntervalResponse, nullable: true, description: 'share less that anyway' })
  difference!: IntervalResponse | null;
  @ApiProperty({
    type: Number,
    nullable: true,
    description: 'one-sided, inside situation and game; null where nothing can be compared',
  })
  pValue!: number | null;
  @ApiProperty({ description: 'stands once all answers asked about are taken together' }) established!: boolean;
  @ApiProperty({ type: ResultsResponse }) results!: ResultsResponse;
}

export class AdjustmentsResponse extends AnswerHeadResponse {
  @ApiProperty({ example: 240, description: 'counting snaps' }) snaps!: number;
  @ApiProperty({ example: 96, description: 'snaps whose duel was charted, even that there was none' }) known!: number;
  @ApiProperty({ example: 0.05, description: 'false discovery rate of answers' }) level!: number;
  @ApiProperty({ type: DuelNodeResponse }) tree!: DuelNodeResponse;
  @ApiProperty({ type: [DuelAnswerResponse] }) answers!: DuelAnswerResponse[];
}
