import { ApiProperty } from '@nestjs/swagger';
import { AnswerHeadResponse } from '../../common/answer-head.dto.js';
import { EXAMPLE_IDS } from '../../common/examples.js';
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

export class OwnCallIntoResponse {
  @ApiProperty({ example: 'Broom Closet (mesh): thrown there 9 of 31 by anybody, succeeded 6 of 9' }) words!: string;
  @ApiProperty({ format: 'uuid', example: EXAMPLE_IDS.menuCall }) menuCallId!: string;
  @ApiProperty({ example: 'Broom Closet', description: 'our own name for it' }) name!: string;
  @ApiProperty({ example: true }) rehearsed!: boolean;
  @ApiProperty({ example: true, description: 'whether we can get into it at the line' }) reachableByCheck!: boolean;
  @ApiProperty({ example: 9, description: 'throws of the concept into the area, by anybody' }) count!: number;
  @ApiProperty({ example: 31, description: 'throws of the concept whose zone and depth are known' }) known!: number;
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
  @ApiProperty({
    type: [OwnCallIntoResponse],
    description: "installed calls of ours that hit the area, by everybody's throws; the surest first",
  })
  ownCalls!: OwnCallIntoResponse[];
}

export class ManualDefenderResponse extends AnswerHeadResponse {
  @ApiProperty({ type: [ControlledSituationResponse], description: 'all snaps first' })
  situations!: ControlledSituationResponse[];
  @ApiProperty({ type: [StartAndActionResponse] }) together!: StartAndActionResponse[];
  @ApiProperty({ type: [OpeningResponse] }) openings!: OpeningResponse[];
}
