import { ApiProperty, ApiPropertyOptional } from '@nestjs/swagger';
import { IsIn, IsOptional, Matches } from 'class-validator';
import { AnswerHeadResponse } from '../../common/answer-head.dto.js';
import { CountedShareResponse, IntervalResponse, ValueResponse } from '../../common/figures.dto.js';
import { PlayReferenceResponse } from '../../common/play-reference.dto.js';
import { TestedQuery } from '../tendencies/tendency-query.dto.js';
import { RealNumber } from '../../common/query-number.js';

const DAY_OR_EVENT = /^(\d{4}-\d{2}-\d{2}|[0-9a-f]{8}(-[0-9a-f]{4}){3}-[0-9a-f]{12})$/i;
const DAY_OR_EVENT_WORDS = 'a day as YYYY-MM-DD or the id of an event';

export const SPLITS = ['games', 'half', 'rules', 'importance'] as const;

export class DriftQuery extends TestedQuery {
  @ApiPropertyOptional({
    enum: SPLITS,
    description:
      'games: the newer half of the games against the older; half: second halves against first halves; rules: the ' +
      "newest rules version against those before it, with the field's move beside the player's; importance: elimination " +
      'games against group games. Games when left out',
  })
  @IsOptional()
  @IsIn(SPLITS)
  split?: (typeof SPLITS)[number];

  @ApiPropertyOptional({
    description: 'games before this day, or of this event, are the earlier ones; instead of a split',
    example: '2026-03-01',
  })
  @IsOptional()
  @Matches(DAY_OR_EVENT, { message: DAY_OR_EVENT_WORDS })
  before?: string;

  @ApiPropertyOptional({
    description: 'games of this day or later, or of this event, are the recent ones; instead of a split',
    example: '2026-03-01',
  })
  @IsOptional()
  @Matches(DAY_OR_EVENT, { message: DAY_OR_EVENT_WORDS })
  after?: string;

  @RealNumber({ minimum: 0.01, maximum: 0.5, default: 0.1, description: 'false discovery rate' })
  level = 0.1;
}

export class PeriodResponse {
  @ApiProperty({ example: 'games before 2026-03-01' }) label!: string;
  @ApiProperty({ example: 4 }) games!: number;
  @ApiProperty({ example: 130, description: 'counting snaps' }) snaps!: number;
}

export class PeriodShareResponse extends CountedShareResponse {
  @ApiProperty({ type: [PlayReferenceResponse] }) plays!: PlayReferenceResponse[];
}

export class DriftedShareResponse extends ValueResponse {
  @ApiProperty({ example: 'pass 30 of 50 (48-71 %) before and 12 of 40 (20-43 %) since; moved (p 0.004)' })
  words!: string;
  @ApiProperty({ type: PeriodShareResponse }) earlier!: PeriodShareResponse;
  @ApiProperty({ type: PeriodShareResponse }) recent!: PeriodShareResponse;
  @ApiProperty({
    type: IntervalResponse,
    nullable: true,
    description: 'recent less earlier; takes plays for independent',
  })
  difference!: IntervalResponse | null;
  @ApiProperty({ example: 0.004, description: 'from permutations that move whole games: judge by this one' })
  pValue!: number;
  @ApiProperty({ description: 'stands once all shares looked at are taken together' }) moved!: boolean;
}

export class DimensionDriftResponse {
  @ApiProperty() words!: string;
  @ApiProperty({ example: 'callFamily' }) dimension!: string;
  @ApiProperty({ example: 'call family' }) label!: string;
  @ApiProperty({ example: 4 }) earlierGames!: number;
  @ApiProperty({ example: 4 }) recentGames!: number;
  @ApiProperty({ example: 0.08, description: 'Jensen-Shannon divergence in bits; grows with few plays by itself' })
  divergence!: number;
  @ApiProperty({ example: 0.012 }) pValue!: number;
  @ApiProperty() drifted!: boolean;
  @ApiProperty({ type: [DriftedShareResponse], description: 'largest difference first' })
  shares!: DriftedShareResponse[];
}

export class MoveResponse {
  @ApiProperty({ minimum: -1, maximum: 1, example: -0.31, description: 'one share less another' }) difference!: number;
  @ApiProperty({ type: IntervalResponse }) interval!: IntervalResponse;
}

export class VersionChangeResponse extends ValueResponse {
  @ApiProperty() words!: string;
  @ApiProperty({ example: 'callFamily' }) dimension!: string;
  @ApiProperty({ type: PeriodShareResponse }) earlier!: PeriodShareResponse;
  @ApiProperty({ type: PeriodShareResponse }) recent!: PeriodShareResponse;
  @ApiProperty({ type: MoveResponse, description: "the player's recent share less the earlier, games as clusters" })
  player!: MoveResponse;
  @ApiProperty({ type: MoveResponse, description: 'the same of players charted on both sides of the change' })
  field!: MoveResponse;
  @ApiProperty({ type: MoveResponse, description: "the player's move beyond the field's" })
  beyond!: MoveResponse;
  @ApiProperty({ enum: ['the version changed', 'the player changed', 'both changed', 'not settled'] })
  verdict!: string;
}

export class DriftResponse extends AnswerHeadResponse {
  @ApiProperty({ type: PeriodResponse }) earlier!: PeriodResponse;
  @ApiProperty({ type: PeriodResponse }) recent!: PeriodResponse;
  @ApiProperty({ enum: ['game', 'half'], description: 'what a permutation moves' }) unit!: string;
  @ApiProperty({
    example: 999,
    description:
      'drawn of each mix, and twenty times as many of one that might be found; where games can be told apart in fewer ways, all of those',
  })
  permutations!: number;
  @ApiProperty({ example: 0.1, description: 'false discovery rate' }) level!: number;
  @ApiProperty({ example: 1, description: 'of the permutations: the same seed gives the same p-values' }) seed!: number;
  @ApiProperty({ type: [DimensionDriftResponse] }) dimensions!: DimensionDriftResponse[];
  @ApiProperty({
    type: [VersionChangeResponse],
    nullable: true,
    description: 'where the split is rules: who moved over the change, the player or everybody',
  })
  versions!: VersionChangeResponse[] | null;
}
