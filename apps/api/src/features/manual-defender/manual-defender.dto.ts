import { ApiProperty } from '@nestjs/swagger';
import { AnswerHeadResponse } from '../../common/answer-head.dto.js';
import { ResultsResponse, ValueResponse } from '../../common/figures.dto.js';
import { PlayReferenceResponse } from '../../common/play-reference.dto.js';
import { EvidencedShareResponse, ValueCountResponse } from '../../common/value-count.js';
import { DefendedQuery } from '../tendencies/tendency-query.dto.js';

export class ManualDefenderQuery extends DefendedQuery {}

export class ControlledSituationResponse {
  @ApiProperty({ example: '3rd and 7-10' }) situation!: string;
  @ApiProperty({ example: 15 }) snaps!: number;
  @ApiProperty({ type: [ValueCountResponse], description: 'the role in which it starts' })
  starts!: ValueCountResponse[];
  @ApiProperty({ type: [ValueCountResponse], description: 'what it does' }) actions!: ValueCountResponse[];
}

export class StartAndActionResponse {
  @ApiProperty({ example: 'from inside linebacker, rushes: 4 of 17' }) words!: string;
  @ApiProperty({ type: ValueResponse }) start!: ValueResponse;
  @ApiProperty({ type: ValueResponse }) action!: ValueResponse;
  @ApiProperty({ example: 4 }) count!: number;
  @ApiProperty({ example: 17, description: 'snaps from this start on which the action is known' }) known!: number;
  @ApiProperty({ type: [PlayReferenceResponse] }) plays!: PlayReferenceResponse[];
}

export class OpeningResponse {
  @ApiProperty({ example: 'rushes leaves the short middle: thrown there 3 of 7' }) words!: string;
  @ApiProperty({ type: ValueResponse }) action!: ValueResponse;
  @ApiProperty({ example: 'short middle', description: 'the area that the action leaves' }) area!: string;
  @ApiProperty({ type: EvidencedShareResponse, description: 'throws there, of throws whose zone and depth are known' })
  hits!: EvidencedShareResponse;
  @ApiProperty({ type: ResultsResponse }) whenHit!: ResultsResponse;
  @ApiProperty({ type: ResultsResponse }) elsewhere!: ResultsResponse;
  @ApiProperty({ type: [ValueCountResponse], description: 'the concepts that were thrown there' })
  concepts!: ValueCountResponse[];
}

export class ManualDefenderResponse extends AnswerHeadResponse {
  @ApiProperty({ type: [ControlledSituationResponse], description: 'all snaps first' })
  situations!: ControlledSituationResponse[];
  @ApiProperty({ type: [StartAndActionResponse] }) together!: StartAndActionResponse[];
  @ApiProperty({ type: [OpeningResponse] }) openings!: OpeningResponse[];
}
