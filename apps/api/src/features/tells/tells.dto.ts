import { ApiProperty } from '@nestjs/swagger';
import { IntervalResponse, ValueResponse } from '../../common/figures.dto.js';
import { AnswerHeadResponse } from '../../common/answer-head.dto.js';
import { PlayReferenceResponse } from '../../common/play-reference.dto.js';
import { TestedQuery } from '../tendencies/tendency-query.dto.js';
import { RealNumber, WholeNumber } from '../../common/query-number.js';

export class TellsQuery extends TestedQuery {
  @RealNumber({ minimum: 0.01, maximum: 0.5, default: 0.1, description: 'false discovery rate' })
  level = 0.1;

  @WholeNumber({ minimum: 0, maximum: 20, default: 5, description: 'unproven leads at most' })
  leads = 5;
}

export class CueResponse {
  @ApiProperty({ type: [String], example: ['motion'], description: 'one name, or the two of a pair' }) names!: string[];
  @ApiProperty({ example: 'motion' }) label!: string;
  @ApiProperty({ example: 'jet', description: 'what was seen, in the words of the vocabulary' }) value!: string;
  @ApiProperty({
    enum: ['huddle', 'line'],
    description: 'from when it can be acted on: by a call, or by a check at the line',
  })
  stage!: string;
}

export class CueSecondsResponse {
  @ApiProperty({ example: 3, description: 'from when it is seen to the snap' }) median!: number;
  @ApiProperty({ example: 1 }) fewest!: number;
  @ApiProperty({ example: 30, description: 'plays with the cue on which both times are charted' }) plays!: number;
  @ApiProperty({ description: 'it shows before the line-up, so these are the seconds that it leaves at least' })
  atLeast!: boolean;
}

export class CueAndCallResponse {
  @ApiProperty({ example: 'motion jet: run 22 of 33 with it, 14 of 180 without; seen in 7 games; leaves 3 s' })
  words!: string;
  @ApiProperty({ type: CueResponse }) cue!: CueResponse;
  @ApiProperty({ example: 'called' }) dimension!: string;
  @ApiProperty({ type: ValueResponse }) call!: ValueResponse;
  @ApiProperty({ enum: ['more', 'less'], description: 'whether the call is made more or less with the cue' })
  direction!: string;
  @ApiProperty({ example: 22 }) count!: number;
  @ApiProperty({ example: 33, description: 'plays with the cue on which the dimension is known' }) plays!: number;
  @ApiProperty({ example: 14 }) countWithout!: number;
  @ApiProperty({ example: 180 }) playsWithout!: number;
  @ApiProperty({ example: 240, description: 'plays that were searched, on which cue and dimension could be known' })
  of!: number;
  @ApiProperty({ example: 0.6667, description: 'in the same situations of the same games' }) shareWith!: number;
  @ApiProperty({ example: 0.1012 }) shareWithout!: number;
  @ApiProperty({ example: 0.5655 }) difference!: number;
  @ApiProperty({
    type: IntervalResponse,
    nullable: true,
    description: 'of the difference, games as clusters; null where only one game says something',
  })
  interval!: IntervalResponse | null;
  @ApiProperty({ type: Number, nullable: true, description: 'null where the call is never made without the cue' })
  lift!: number | null;
  @ApiProperty({ type: Number, nullable: true, description: 'common odds ratio; null where nothing speaks against it' })
  oddsRatio!: number | null;
  @ApiProperty({ example: 0.00003 }) pValue!: number;
  @ApiProperty({ enum: ['Cochran-Mantel-Haenszel with continuity correction', 'exact conditional mid-P'] })
  method!: string;
  @ApiProperty({ example: 8, description: 'games with the cue' }) games!: number;
  @ApiProperty({ example: 7, description: 'games in which what is claimed was seen' }) gamesSeen!: number;
  @ApiProperty() oneGameOnly!: boolean;
  @ApiProperty({ type: CueSecondsResponse, nullable: true, description: 'null where the chart cannot say' })
  seconds!: CueSecondsResponse | null;
  @ApiProperty({ type: [PlayReferenceResponse], description: 'plays with the cue and the call' })
  evidence!: PlayReferenceResponse[];
  @ApiProperty({ type: [PlayReferenceResponse], description: 'plays with the cue and another call' })
  exceptions!: PlayReferenceResponse[];
}

export class TellResponse extends CueAndCallResponse {
  @ApiProperty({ example: 0.004, description: 'smallest level at which it would have been found' })
  adjustedPValue!: number;
  @ApiProperty({ description: 'of a pair: one of its parts alone tells the same' }) restates!: boolean;
}

export class ParentSituationResponse {
  @ApiProperty({ example: '3rd and 7-10' }) situation!: string;
  @ApiProperty({ example: 4 }) count!: number;
  @ApiProperty({ example: 5 }) plays!: number;
  @ApiProperty({ example: 9 }) countWithout!: number;
  @ApiProperty({ example: 31 }) playsWithout!: number;
}

export class LeadResponse extends CueAndCallResponse {
  @ApiProperty({ enum: ['unproven'] }) status!: string;
  @ApiProperty({ example: 1 }) rank!: number;
  @ApiProperty({
    type: ParentSituationResponse,
    description: 'where the cue is seen most: what it may really be about',
  })
  parentSituation!: ParentSituationResponse;
  @ApiProperty({
    type: Number,
    nullable: true,
    example: 45,
    description: 'more snaps with the cue that would settle it',
  })
  snapsToSettle!: number | null;
}

export class TestedResponse {
  @ApiProperty({ example: 240, description: 'counting plays with a known situation' }) plays!: number;
  @ApiProperty({ example: 8 }) games!: number;
  @ApiProperty({ example: 3, description: 'counting plays left out, their situation not being known' })
  withoutSituation!: number;
  @ApiProperty({ example: 31 }) cueValues!: number;
  @ApiProperty({ example: 140, description: 'cue value by dimension' }) families!: number;
  @ApiProperty({ example: 2 }) selectedFamilies!: number;
  @ApiProperty({ example: 690, description: 'cue value by call' }) calls!: number;
}

export class CueKnownResponse {
  @ApiProperty({ example: 'motion' }) cue!: string;
  @ApiProperty({ example: 190 }) known!: number;
}

export class TellsResponse extends AnswerHeadResponse {
  @ApiProperty({ example: 0.1, description: 'false discovery rate' }) level!: number;
  @ApiProperty({ type: TestedResponse }) tested!: TestedResponse;
  @ApiProperty({ type: [CueKnownResponse], description: 'on how many of the counting plays each cue was charted' })
  known!: CueKnownResponse[];
  @ApiProperty({
    type: [TellResponse],
    description: 'discoveries only, the most certain first; none is a usual answer',
  })
  tells!: TellResponse[];
  @ApiProperty({ type: [LeadResponse], description: 'where to look; not proven, whatever they look like' })
  leads!: LeadResponse[];
}
