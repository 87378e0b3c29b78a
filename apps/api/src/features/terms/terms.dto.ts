import { ApiProperty, ApiPropertyOptional } from '@nestjs/swagger';

import {
  ArrayMaxSize,
  ArrayUnique,
  IsArray,
  IsBoolean,
  IsIn,
  IsInt,
  IsOptional,
  IsString,
  Length,
  Max,
  Min,
} from 'class-validator';
import { TERM_KINDS, type TermKind } from '#domain/charting/play-fields.js';
import { AsBoolean } from '../../common/as-boolean.js';
import { NumberPageQuery, PageLink } from '../../common/page.dto.js';

const KIND = { enum: TERM_KINDS, example: 'formation' } as const;
const PARENT = {
  type: 'integer',
  nullable: true,
  example: null,
  description: 'what it rolls up to; the parent of a concept is its usual call family',
} as const;
const STARTER = {
  type: 'integer',
  nullable: true,
  example: 12,
  description: 'the starter term of the same kind that it stands for; through it other clans read your plays',
} as const;
const LARGEST_ID = 2_147_483_647;

export class TermsQuery extends NumberPageQuery {
  @ApiPropertyOptional(KIND)
  @IsOptional()
  @IsIn(TERM_KINDS)
  kind?: TermKind;

  @ApiPropertyOptional({ description: "true: only the clan's own; false: only the starter terms" })
  @IsOptional()
  @AsBoolean()
  @IsBoolean()
  own?: boolean;

  @ApiPropertyOptional({ description: 'only what goes by this name or synonym', example: 'trips' })
  @IsOptional()
  @IsString()
  @Length(1, 80)
  word?: string;
}

/** What may be changed of a term. Of a starter term only the clan's own words for it. */
export class TermChange {
  @ApiProperty({ example: 'Lantern right', minLength: 1, maxLength: 80 })
  @IsString()
  @Length(1, 80)
  name!: string;

  @ApiPropertyOptional(PARENT)
  @IsOptional()
  @IsInt()
  @Min(1)
  @Max(LARGEST_ID)
  parentId?: number | null;

  @ApiPropertyOptional(STARTER)
  @IsOptional()
  @IsInt()
  @Min(1)
  @Max(LARGEST_ID)
  starterId?: number | null;

  @ApiPropertyOptional({ type: [String], example: ['lan'], description: 'other words of your clan for it' })
  @IsOptional()
  @IsArray()
  @ArrayMaxSize(40)
  @ArrayUnique()
  @IsString({ each: true })
  @Length(1, 80, { each: true })
  synonyms?: string[] | null;

  @ApiPropertyOptional({ type: String, nullable: true, maxLength: 500, example: 'three receivers to the right' })
  @IsOptional()
  @IsString()
  @Length(0, 500)
  meaning?: string | null;

  @ApiPropertyOptional({
    type: Boolean,
    nullable: true,
    default: false,
    description: 'no longer found by its words; plays keep it',
  })
  @IsOptional()
  @IsBoolean()
  retired?: boolean | null;
}

export class NewTerm extends TermChange {
  @ApiProperty(KIND)
  @IsIn(TERM_KINDS)
  kind!: TermKind;
}

export class TermMerger {
  @ApiProperty({
    type: 'integer',
    example: 12,
    description: 'the term, of the same kind, that it counts as from now on',
  })
  @IsInt()
  @Min(1)
  @Max(LARGEST_ID)
  intoId!: number;
}

export class TermResponse {
  @ApiProperty({ type: 'integer', example: 901 }) id!: number;
  @ApiProperty(KIND) kind!: TermKind;
  @ApiProperty({ type: String, nullable: true, example: null, description: 'stable code of a starter term' })
  code!: string | null;
  @ApiProperty({ example: 'Lantern right' }) name!: string;
  @ApiProperty(PARENT) parentId!: number | null;
  @ApiProperty(STARTER) starterId!: number | null;
  @ApiProperty({ type: [String], example: ['lan'], description: "your clan's other words for it" })
  synonyms!: string[];
  @ApiProperty({ type: [String], example: [], description: 'words that every clan has for a starter term' })
  starterSynonyms!: string[];
  @ApiProperty({ type: String, nullable: true, example: 'three receivers to the right' }) meaning!: string | null;
  @ApiProperty({ example: false }) retired!: boolean;
  @ApiProperty({ type: 'integer', nullable: true, example: null, description: 'the term that it counts as' })
  mergedIntoId!: number | null;
  @ApiProperty({ example: true, description: "the clan's own, not a starter term" }) own!: boolean;
}

export class TermPage extends PageLink {
  @ApiProperty({ type: [TermResponse] }) items!: TermResponse[];
}
