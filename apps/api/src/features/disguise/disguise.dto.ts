import { ApiProperty } from '@nestjs/swagger';
import { AnswerHeadResponse } from '../../common/answer-head.dto.js';
import { IntervalResponse, ValueResponse } from '../../common/figures.dto.js';
import { PlayReferenceResponse } from '../../common/play-reference.dto.js';
import { EvidencedShareResponse, ValueCountResponse } from '../../common/value-count.js';
import { DefendedQuery } from '../tendencies/tendency-query.dto.js';

export class DisguiseQuery extends DefendedQuery {}

export class DisguiseByDownResponse extends EvidencedShareResponse {
  @ApiProperty({ minimum: 1, maximum: 4 }) down!: number;
}

export class ShellCoverageResponse {
  @ApiProperty({ example: 'two high shown, cover 3 played: 4 of 21, disguised' }) words!: string;
  @ApiProperty({ type: ValueResponse }) shell!: ValueResponse;
  @ApiProperty({ type: ValueResponse }) coverage!: ValueResponse;
  @ApiProperty({ example: 4 }) count!: number;
  @ApiProperty({ type: Boolean, nullable: true, description: 'null where the pair settles nothing' })
  disguised!: boolean | null;
  @ApiProperty({ type: [PlayReferenceResponse] }) plays!: PlayReferenceResponse[];
}

export class SeenByResultResponse {
  @ApiProperty() words!: string;
  @ApiProperty() knownOnSuccesses!: number;
  @ApiProperty() successes!: number;
  @ApiProperty() knownOnFailures!: number;
  @ApiProperty() failures!: number;
  @ApiProperty({ type: IntervalResponse, description: 'known share on successes less that on failures, 99 % interval' })
  difference!: IntervalResponse;
}

export class DisguiseResponse extends AnswerHeadResponse {
  @ApiProperty({ example: 60, description: 'counting snaps defended' }) snaps!: number;
  @ApiProperty({ example: 24, description: 'snaps with shell and coverage both charted' }) bothKnown!: number;
  @ApiProperty({ type: EvidencedShareResponse, description: 'disguised, of snaps that settle it' })
  disguised!: EvidencedShareResponse;
  @ApiProperty({ type: [ValueCountResponse], description: 'the same by the shell shown' })
  byShell!: ValueCountResponse[];
  @ApiProperty({ type: [DisguiseByDownResponse] }) byDown!: DisguiseByDownResponse[];
  @ApiProperty({ type: [ShellCoverageResponse] }) pairs!: ShellCoverageResponse[];
  @ApiProperty({ type: EvidencedShareResponse, description: 'still moving at the snap; these announce nothing' })
  lateMovers!: EvidencedShareResponse;
  @ApiProperty({ type: EvidencedShareResponse, description: 'duels in which the disguise moved late' })
  movedLate!: EvidencedShareResponse;
  @ApiProperty({
    type: SeenByResultResponse,
    nullable: true,
    description: 'where knowing shell and coverage goes with the result, so that the share may mislead',
  })
  visibility!: SeenByResultResponse | null;
}
