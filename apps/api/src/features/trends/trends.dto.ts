import { ApiProperty, ApiPropertyOptional, PickType } from '@nestjs/swagger';
import { IsBoolean, IsOptional } from 'class-validator';
import { AsBoolean } from '../../common/as-boolean.js';
import { IntervalResponse } from '../../common/figures.dto.js';
import { TrendEventResponse, UsageResponse } from '../../common/event-usage.dto.js';
import { PlayReferenceResponse } from '../../common/play-reference.dto.js';
import { TendencyQuery } from '../tendencies/tendency-query.dto.js';

export class TrendsQuery extends PickType(TendencyQuery, ['side', 'confidence'] as const) {
  @ApiPropertyOptional({
    type: Boolean,
    default: false,
    description: 'everything that was put to the test, not only what rises or falls',
  })
  @IsOptional()
  @AsBoolean()
  @IsBoolean()
  all = false;
}

export class TrendPartResponse {
  @ApiProperty({ example: 'concept' }) dimension!: string;
  @ApiProperty({ example: 'counter read' }) label!: string;
  @ApiProperty({ nullable: true, type: Number, example: 70 }) termId!: number | null;
}

export class FirstSeenResponse {
  @ApiProperty({ nullable: true, type: String, example: 'Mossback', description: 'null where the name is withheld' })
  handle!: string | null;
  @ApiProperty({ nullable: true, type: String, example: '2026-03-01' }) playedOn!: string | null;
  @ApiProperty({ type: PlayReferenceResponse }) play!: PlayReferenceResponse;
}

export class ChangeResponse {
  @ApiProperty({ example: 0.04, description: 'of the share, from the first event to the last' }) share!: number;
  @ApiProperty({ type: IntervalResponse }) interval!: IntervalResponse;
}

export class TrendTestResponse {
  @ApiProperty({ example: 3.1, description: 'Cochran-Armitage, its variance taken between players' }) z!: number;
  @ApiProperty({ example: 0.0005, description: 'from turning the signs of whole players' }) pValue!: number;
  @ApiProperty({
    nullable: true,
    type: Number,
    example: 0.04,
    description: 'level of false discoveries at which it would just be one; null for combinations',
  })
  adjusted!: number | null;
  @ApiProperty({ example: 6.9, description: 'z as if every play stood alone, which it does not' })
  asIndependentPlays!: number;
}

export class TrendResponse {
  @ApiProperty({ example: 'concept', description: 'two names in one for combinations' }) dimension!: string;
  @ApiProperty({ type: [TrendPartResponse] }) parts!: TrendPartResponse[];
  @ApiProperty({
    enum: ['rising', 'falling', 'steady', 'open'],
    description: 'steady rules out a change of more than five points; open settles nothing',
  })
  verdict!: string;
  @ApiProperty({
    example:
      'counter read (concept) is rising: 10 of 1302, 43 of 1544, 65 of 1186; used by 3, 7, 13 players; p below 0.001',
  })
  words!: string;
  @ApiProperty({ example: 'success 7 of 10, 26 of 43, 28 of 65' }) results!: string;
  @ApiProperty({ type: TrendTestResponse }) test!: TrendTestResponse;
  @ApiProperty({ type: ChangeResponse }) change!: ChangeResponse;
  @ApiProperty({ example: 14, description: 'players who ever used it' }) users!: number;
  @ApiProperty({ type: FirstSeenResponse, nullable: true }) firstSeen!: FirstSeenResponse | null;
  @ApiProperty({ type: [UsageResponse], description: 'in the order of events' }) byEvent!: UsageResponse[];
}

export class TrendsResponse {
  @ApiProperty({ enum: ['offense', 'defense'] }) side!: string;
  @ApiProperty({ example: 0.9, description: 'of every interval' }) confidence!: number;
  @ApiProperty({ type: [TrendEventResponse], description: 'in time' }) events!: TrendEventResponse[];
  @ApiProperty({ example: 84 }) tested!: number;
  @ApiProperty({ example: '84 calls put to the test; of those found, 10 % may be chance' }) restsOn!: string;
  @ApiProperty({ type: [TrendResponse] }) trends!: TrendResponse[];
}
