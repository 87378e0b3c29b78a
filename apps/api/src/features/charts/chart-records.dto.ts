import { ApiProperty, ApiPropertyOptional } from '@nestjs/swagger';
import { Type } from 'class-transformer';
import {
  ArrayMaxSize,
  ArrayMinSize,
  ArrayUnique,
  IsArray,
  IsBoolean,
  IsIn,
  IsInt,
  IsISO8601,
  IsOptional,
  IsString,
  IsUUID,
  Length,
  Max,
  Min,
  ValidateNested,
} from 'class-validator';
import { PLAY_FIELDS } from '#domain/charting/play-fields.js';
import { AsBoolean } from '../../common/as-boolean.js';
import { EXAMPLE_IDS } from '../../common/examples.js';
import { FilmScopeResponse } from '../../common/film-scope.dto.js';
import { IdPageQuery, PageLink } from '../../common/page.dto.js';
import { IsReference } from '../../common/reference.js';

const FIELD_NAMES = PLAY_FIELDS.map((field) => field.name);
const CHARTED_AT = { type: String, format: 'date-time', nullable: true, example: '2026-03-02T20:00:00Z' } as const;

export class ChartsQuery extends IdPageQuery {
  @ApiPropertyOptional({ format: 'uuid', description: 'only charts of this game' })
  @IsOptional()
  @IsUUID()
  gameId?: string;

  @ApiPropertyOptional({ description: "true: only the clan's own" })
  @IsOptional()
  @AsBoolean()
  @IsBoolean()
  own?: boolean;
}

/** How much of the film was charted; a part that is null was charted whole. */
export class FilmScopeInput {
  @ApiPropertyOptional({ enum: ['home', 'away'], nullable: true, example: null, description: 'only with the ball' })
  @IsOptional()
  @IsIn(['home', 'away'])
  offense?: 'home' | 'away' | null;

  @ApiPropertyOptional({ type: 'array', items: { type: 'integer' }, nullable: true, example: [3, 4] })
  @IsOptional()
  @IsArray()
  @ArrayMinSize(1)
  @ArrayUnique()
  @IsInt({ each: true })
  @Min(1, { each: true })
  @Max(4, { each: true })
  downs?: number[] | null;

  @ApiPropertyOptional({ type: 'array', items: { type: 'integer' }, nullable: true, example: null })
  @IsOptional()
  @IsArray()
  @ArrayMinSize(1)
  @ArrayUnique()
  @IsInt({ each: true })
  @Min(1, { each: true })
  @Max(12, { each: true })
  quarters?: number[] | null;

  @ApiPropertyOptional({ type: [String], nullable: true, example: null, description: 'only these fields of a play' })
  @IsOptional()
  @IsArray()
  @ArrayMinSize(1)
  @ArrayMaxSize(100)
  @ArrayUnique()
  @IsIn(FIELD_NAMES, { each: true })
  fields?: string[] | null;
}

export class ChartChange {
  @IsReference('main')
  reference!: string;

  @ApiPropertyOptional({ type: String, nullable: true, maxLength: 80, example: 'the analyst' })
  @IsOptional()
  @IsString()
  @Length(1, 80)
  chartedBy?: string | null;

  @ApiPropertyOptional(CHARTED_AT)
  @IsOptional()
  @IsISO8601({ strict: true })
  chartedAt?: string | null;

  @ApiPropertyOptional({ type: FilmScopeInput, nullable: true })
  @IsOptional()
  @ValidateNested()
  @Type(() => FilmScopeInput)
  filmScope?: FilmScopeInput | null;
}

export class NewChart extends ChartChange {
  @ApiProperty({ format: 'uuid', example: EXAMPLE_IDS.game })
  @IsUUID()
  gameId!: string;

  @ApiPropertyOptional({
    enum: ['charted', 'own call log'],
    default: 'charted',
    description: 'an own call log says what was meant, not what was seen, and counts for nothing',
  })
  @IsOptional()
  @IsIn(['charted', 'own call log'])
  kind?: string | null;
}

export class ChartResponse {
  @ApiProperty({ format: 'uuid', example: EXAMPLE_IDS.chart }) id!: string;
  @ApiProperty({ format: 'uuid', example: EXAMPLE_IDS.game }) gameId!: string;
  @ApiProperty({ example: 'main' }) reference!: string;
  @ApiProperty({ enum: ['charted', 'reconciled', 'own call log'], example: 'charted' }) kind!: string;
  @ApiProperty({ type: String, nullable: true, example: 'the analyst' }) chartedBy!: string | null;
  @ApiProperty(CHARTED_AT) chartedAt!: string | null;
  @ApiProperty({ type: FilmScopeResponse }) filmScope!: FilmScopeResponse;
  @ApiProperty({ type: 'integer', example: 92 }) plays!: number;
  @ApiProperty({ type: 'integer', example: 4, description: 'raised with every change of the chart or its plays' })
  revision!: number;
  @ApiProperty({ example: true, description: "the clan's own" }) own!: boolean;
}

export class ChartPage extends PageLink {
  @ApiProperty({ type: [ChartResponse] }) items!: ChartResponse[];
}
