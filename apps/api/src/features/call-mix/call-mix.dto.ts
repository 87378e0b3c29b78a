import { ApiProperty, ApiPropertyOptional } from '@nestjs/swagger';
import { IsOptional, IsString, Length } from 'class-validator';
import { AnswerHeadResponse } from '../../common/answer-head.dto.js';
import { EXAMPLE_IDS } from '../../common/examples.js';
import { IntervalResponse } from '../../common/figures.dto.js';
import { OpponentQuery } from '../../common/opponent-query.dto.js';

export class CallMixQuery extends OpponentQuery {
  @ApiPropertyOptional({
    example: '3rd and 7-10',
    description: 'only this situation; the twelve most frequent when left out',
  })
  @IsOptional()
  @IsString()
  @Length(1, 60)
  situation?: string;
}

export class TheirCallResponse {
  @ApiProperty({ example: 'inside zone' }) label!: string;
  @ApiProperty({ example: 7, description: 'plays of theirs in the situation' }) count!: number;
  @ApiProperty({ example: 0.12, description: 'share with which it is expected, drawn to the field' }) share!: number;
  @ApiProperty({
    example: 0.14,
    description: 'share of their equilibrium against our calls, beside which theirs can be held',
  })
  equilibriumShare!: number;
}

export class OurCallResponse {
  @ApiProperty({ example: 'Narrow Door' }) label!: string;
  @ApiProperty({
    type: String,
    nullable: true,
    format: 'uuid',
    example: EXAMPLE_IDS.menuCall,
    description: 'null for one to install',
  })
  menuCallId!: string | null;
  @ApiProperty({ example: true }) rehearsed!: boolean;
  @ApiProperty({ description: 'never seen as such; what is said rests on calls most like it' }) byItsLike!: boolean;
  @ApiProperty({
    type: [Number],
    example: [0.04, -0.02],
    description: 'our gain in points a play against each of theirs, in their order',
  })
  gains!: number[];
}

export class MixShareResponse {
  @ApiProperty({ example: 'Narrow Door' }) label!: string;
  @ApiProperty({ minimum: 0, maximum: 1, example: 0.6 }) share!: number;
}

export class GainResponse {
  @ApiProperty({ example: 0.03, description: 'our gain in points a play' }) mean!: number;
  @ApiProperty({ type: IntervalResponse }) interval!: IntervalResponse;
}

export class WorstCaseResponse {
  @ApiProperty({ example: -0.06, description: 'our gain in points a play' }) mean!: number;
  @ApiProperty({ example: 'duo', description: 'the call of theirs that does it' }) label!: string;
  @ApiProperty({
    example: -0.21,
    description: 'lower end of what the mix holds, over the posterior; half of it below one-sided',
  })
  guarantee!: number;
}

export class DialStopResponse {
  @ApiProperty({ description: 'the figures as a sentence' }) words!: string;
  @ApiProperty({ minimum: 0, maximum: 1, example: 0, description: '0 safe, 1 bold' }) lean!: number;
  @ApiProperty({ type: [MixShareResponse], description: 'calls with a part in it, the largest first' })
  mix!: MixShareResponse[];
  @ApiProperty({ type: GainResponse }) ifTheyStay!: GainResponse;
  @ApiProperty({ type: WorstCaseResponse }) ifTheyAdjust!: WorstCaseResponse;
}

export class DominatedResponse {
  @ApiProperty({ example: 'Bellows' }) label!: string;
  @ApiProperty({ type: [MixShareResponse], description: 'what beats it whatever they call' }) by!: MixShareResponse[];
  @ApiProperty({ example: 0.02, description: 'by how much where it is closest, in points a play' }) margin!: number;
}

export class SituationMixResponse {
  @ApiProperty({ example: '3rd and 7-10' }) situation!: string;
  @ApiProperty({ example: 17, description: 'plays of the opponent in it' }) opponentPlays!: number;
  @ApiProperty({ description: "whether ours are installed; else the field's most frequent stand in" })
  installed!: boolean;
  @ApiProperty({ example: -0.02, description: 'what either side can hold the other to: our gain in points a play' })
  value!: number;
  @ApiProperty({ example: 0, description: 'how far from an equilibrium the two mixes are, at most 1e-9' }) gap!: number;
  @ApiProperty({ type: [TheirCallResponse] }) theirs!: TheirCallResponse[];
  @ApiProperty({ type: [OurCallResponse] }) ours!: OurCallResponse[];
  @ApiProperty({ type: [MixShareResponse], description: 'our equilibrium on posterior means' })
  equilibrium!: MixShareResponse[];
  @ApiProperty({ example: 'Narrow Door', description: 'our best single call against what they do now' })
  bestResponse!: string;
  @ApiProperty({ type: [DialStopResponse], description: 'from safe to bold' }) dial!: DialStopResponse[];
  @ApiProperty({
    type: [DominatedResponse],
    description:
      'calls of ours that another, or the equilibrium, beats on average whatever they call; a safe mix may still hold one of which more is known',
  })
  dominated!: DominatedResponse[];
}

export class CallMixResponse extends AnswerHeadResponse {
  @ApiProperty({ type: [SituationMixResponse] }) situations!: SituationMixResponse[];
}
