import { ApiProperty } from '@nestjs/swagger';
import { AnswerHeadResponse } from '../../common/answer-head.dto.js';
import { PlayReferenceResponse } from '../../common/play-reference.dto.js';
import { EvidencedShareResponse } from '../../common/value-count.js';
import { DecidedQuery } from '../tendencies/tendency-query.dto.js';

/** Every decision but that on timeouts, which stand apart since a side that defends makes it too. */
export const DECIDED = [
  ...(['fourthDown', 'kicksAtGoal', 'twoPointTries', 'onsideKicks', 'fakes'] as const),
  ...(['runs', 'hurry', 'burn', 'sooner'] as const),
] as const;

export class DecisionsQuery extends DecidedQuery {}

export class DecisionPartResponse extends EvidencedShareResponse {
  @ApiProperty({ example: '2-3' }) part!: string;
}

export class DecisionPartitionResponse {
  @ApiProperty({ enum: ['distance', 'zone', 'half', 'score', 'clock'] }) partition!: string;
  @ApiProperty({ type: [DecisionPartResponse], description: 'those in which anything is known' })
  parts!: DecisionPartResponse[];
}

export class DecisionResponse extends EvidencedShareResponse {
  @ApiProperty({
    enum: [...DECIDED, 'timeoutUsed'],
  })
  decision!: string;
  @ApiProperty({ type: [DecisionPartitionResponse] }) by!: DecisionPartitionResponse[];
}

export class TimeoutsKeptResponse {
  @ApiProperty({ example: 2, description: 'half of the game' }) half!: number;
  @ApiProperty({ example: 3, description: 'left at the play' }) left!: number;
  @ApiProperty({ type: PlayReferenceResponse, description: 'the last play of the half that knows them' })
  play!: PlayReferenceResponse;
}

export class TimeoutsResponse {
  @ApiProperty({ enum: ['offense', 'defense'] }) side!: string;
  @ApiProperty({ type: DecisionResponse }) used!: DecisionResponse;
  @ApiProperty({ type: EvidencedShareResponse }) inTheDuel!: EvidencedShareResponse;
  @ApiProperty({ type: [TimeoutsKeptResponse] }) kept!: TimeoutsKeptResponse[];
}

export class UsualPaceResponse {
  @ApiProperty({ example: 24, description: 'seconds of a running clock from snap to snap, lower median' })
  seconds!: number;
  @ApiProperty({ example: 640, description: "the field's snaps that it rests on" }) known!: number;
}

export class DecisionsResponse extends AnswerHeadResponse {
  @ApiProperty({ type: [DecisionResponse] }) decisions!: DecisionResponse[];
  @ApiProperty({
    type: UsualPaceResponse,
    nullable: true,
    description: 'what `sooner` is held against; null where the clock of no other player is charted',
  })
  usualPace!: UsualPaceResponse | null;
  @ApiProperty({ type: [TimeoutsResponse], description: 'with the ball, then defending' })
  timeouts!: TimeoutsResponse[];
}
