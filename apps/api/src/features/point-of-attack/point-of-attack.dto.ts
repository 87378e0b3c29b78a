import { ApiProperty } from '@nestjs/swagger';
import { AnswerHeadResponse } from '../../common/answer-head.dto.js';
import { IntervalResponse, ResultsResponse, ValueResponse } from '../../common/figures.dto.js';
import { PlayReferenceResponse } from '../../common/play-reference.dto.js';
import { EvidencedShareResponse, ValueCountResponse } from '../../common/value-count.js';
import { TestedQuery } from '../tendencies/tendency-query.dto.js';

export class PointOfAttackQuery extends TestedQuery {}

export class AttackSplitResponse {
  @ApiProperty({ type: ValueResponse, nullable: true, description: 'front or side of pressure; null for all plays' })
  value!: ValueResponse | null;
  @ApiProperty({ example: 40 }) snaps!: number;
  @ApiProperty({ type: EvidencedShareResponse, description: 'forced off the design; read by design was not forced' })
  forced!: EvidencedShareResponse;
  @ApiProperty({ type: ResultsResponse }) whenForced!: ResultsResponse;
  @ApiProperty({ type: ResultsResponse }) whenNot!: ResultsResponse;
  @ApiProperty({ type: IntervalResponse, nullable: true, description: 'success when forced less success when not' })
  price!: IntervalResponse | null;
}

export class MeantAndWentResponse {
  @ApiProperty({ example: 'meant for left, went right: 4 of 19' }) words!: string;
  @ApiProperty({ type: ValueResponse }) meant!: ValueResponse;
  @ApiProperty({ type: ValueResponse }) went!: ValueResponse;
  @ApiProperty({ example: 4 }) count!: number;
  @ApiProperty({ example: 19, description: 'plays meant for there of which it is known where they went' })
  known!: number;
  @ApiProperty({ type: [PlayReferenceResponse] }) plays!: PlayReferenceResponse[];
}

export class PointOfAttackResponse extends AnswerHeadResponse {
  @ApiProperty({ type: AttackSplitResponse }) all!: AttackSplitResponse;
  @ApiProperty({ type: [ValueCountResponse], description: 'what forced it, among them that nothing did' })
  causes!: ValueCountResponse[];
  @ApiProperty({ type: EvidencedShareResponse, description: 'went to another side than meant, whatever the cause' })
  otherSide!: EvidencedShareResponse;
  @ApiProperty({ type: [MeantAndWentResponse] }) sides!: MeantAndWentResponse[];
  @ApiProperty({ type: [MeantAndWentResponse] }) gaps!: MeantAndWentResponse[];
  @ApiProperty({ type: [AttackSplitResponse] }) byFront!: AttackSplitResponse[];
  @ApiProperty({ type: [AttackSplitResponse] }) byPressureSide!: AttackSplitResponse[];
}
