import { ApiProperty, ApiPropertyOptional } from '@nestjs/swagger';
import { IsIn, IsInt, IsOptional, IsString, IsUUID, Length, Max, Min } from 'class-validator';
import { EXAMPLE_IDS } from '../../common/examples.js';
import { IsVisibleTo, VISIBLE_TO_PROPERTY, type VisibleTo } from '../../common/visible-to.repository.js';
import { IdPageQuery, PageLink } from '../../common/page.dto.js';
import { IsTermWord, termProperty } from '../../common/term-word.js';

const ABOUT = {
  enum: ['call', 'answer', 'opponent', 'play'],
  example: 'opponent',
  description:
    'a call: menuCallId, or callFamily, concept, formation; an answer: front, coverage, pressure, and the call it answers; ' +
    'an opponent: playerId; a play: chartId and playNumber',
};
const ID = { type: String, format: 'uuid', nullable: true, example: null } as const;
const NUMBER = { type: 'integer', nullable: true, minimum: 1, example: null } as const;
const TEXT = {
  minLength: 1,
  maxLength: 500,
  example: 'Goes for it on fourth and short: have the short-yardage call ready.',
};

export class CoachingPointsQuery extends IdPageQuery {
  @ApiPropertyOptional(ABOUT)
  @IsOptional()
  @IsIn(ABOUT.enum)
  about?: string;

  @ApiPropertyOptional({ format: 'uuid', description: 'only on this opponent' })
  @IsOptional()
  @IsUUID()
  playerId?: string;

  @ApiPropertyOptional({ format: 'uuid', description: 'only on plays of this chart' })
  @IsOptional()
  @IsUUID()
  chartId?: string;

  @ApiPropertyOptional({ format: 'uuid', description: 'only on this call of the menu' })
  @IsOptional()
  @IsUUID()
  menuCallId?: string;
}

export class CoachingPointInput {
  @ApiProperty(ABOUT)
  @IsIn(ABOUT.enum)
  about!: string;

  @ApiProperty(TEXT)
  @IsString()
  @Length(1, 500)
  text!: string;

  @ApiPropertyOptional(ID)
  @IsOptional()
  @IsUUID()
  menuCallId?: string | null;

  @IsTermWord('callFamily') callFamily?: string | null;
  @IsTermWord('concept') concept?: string | null;
  @IsTermWord('formation') formation?: string | null;
  @IsTermWord('front') front?: string | null;
  @IsTermWord('coverage') coverage?: string | null;
  @IsTermWord('pressure') pressure?: string | null;

  @ApiPropertyOptional({ ...ID, example: EXAMPLE_IDS.opponent, description: 'a player of yours' })
  @IsOptional()
  @IsUUID()
  playerId?: string | null;

  @ApiPropertyOptional({ ...ID, description: 'of any play that you can read' })
  @IsOptional()
  @IsUUID()
  chartId?: string | null;

  @ApiPropertyOptional(NUMBER)
  @IsOptional()
  @IsInt()
  @Min(1)
  @Max(65_535)
  playNumber?: number | null;

  @IsVisibleTo() visibleTo?: VisibleTo | null;
}

const REVISION = { type: 'integer', example: 1, description: 'raised with every change' } as const;
const WRITTEN_BY = { example: 'first key', description: 'name of the key that wrote it' } as const;
const WRITTEN_AT = { format: 'date-time', example: '2026-03-01T18:00:00Z' } as const;

export class CoachingPointResponse {
  @ApiProperty({ format: 'uuid', example: EXAMPLE_IDS.match }) id!: string;
  @ApiProperty(ABOUT) about!: string;
  @ApiProperty(TEXT) text!: string;
  @ApiProperty(ID) menuCallId!: string | null;
  @ApiProperty(termProperty('callFamily', null)) callFamily!: string | null;
  @ApiProperty(termProperty('concept', null)) concept!: string | null;
  @ApiProperty(termProperty('formation', null)) formation!: string | null;
  @ApiProperty(termProperty('front', null)) front!: string | null;
  @ApiProperty(termProperty('coverage', null)) coverage!: string | null;
  @ApiProperty(termProperty('pressure', null)) pressure!: string | null;
  @ApiProperty({ ...ID, example: EXAMPLE_IDS.opponent }) playerId!: string | null;
  @ApiProperty(ID) chartId!: string | null;
  @ApiProperty(NUMBER) playNumber!: number | null;
  @ApiProperty(VISIBLE_TO_PROPERTY) visibleTo!: VisibleTo;
  @ApiProperty(REVISION) revision!: number;
  @ApiProperty(WRITTEN_BY) writtenBy!: string;
  @ApiProperty(WRITTEN_AT) writtenAt!: string;
}

export class CoachingPointPage extends PageLink {
  @ApiProperty({ type: [CoachingPointResponse] }) items!: CoachingPointResponse[];
}

export class CoachingPointVersion {
  @ApiProperty(REVISION) revision!: number;
  @ApiProperty(TEXT) text!: string;
  @ApiProperty(WRITTEN_BY) writtenBy!: string;
  @ApiProperty(WRITTEN_AT) writtenAt!: string;
}

export class CoachingPointVersions {
  @ApiProperty({ type: [CoachingPointVersion], description: 'the newest first' }) items!: CoachingPointVersion[];
}
