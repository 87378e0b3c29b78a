import { ApiProperty, ApiPropertyOptional } from '@nestjs/swagger';
import { IsBoolean, IsIn, IsOptional, IsString, Length } from 'class-validator';
import { AsBoolean } from '../../common/as-boolean.js';
import { EXAMPLE_IDS } from '../../common/examples.js';
import { IdPageQuery, PageLink } from '../../common/page.dto.js';
import { IsTermWord, termProperty } from '../../common/term-word.js';

const SIDE = { enum: ['offense', 'defense'], example: 'offense' };

export class MenuQuery extends IdPageQuery {
  @ApiPropertyOptional(SIDE)
  @IsOptional()
  @IsIn(SIDE.enum)
  side?: string;

  @ApiPropertyOptional({ description: 'only what was rehearsed, or only what was not' })
  @IsOptional()
  @AsBoolean()
  @IsBoolean()
  rehearsed?: boolean;
}

export class MenuCallInput {
  @ApiProperty(SIDE)
  @IsIn(SIDE.enum)
  side!: 'offense' | 'defense';

  @ApiProperty({ example: 'Lantern mesh', minLength: 1, maxLength: 80, description: 'our own name for it' })
  @IsString()
  @Length(1, 80)
  name!: string;

  @IsTermWord('offensivePersonnel, or defensivePersonnel on that side') personnel?: string | null;
  @IsTermWord('formation', 'trips') formation?: string | null;
  @IsTermWord('concept', 'mesh') concept?: string | null;
  @IsTermWord('front') front?: string | null;
  @IsTermWord('coverage') coverage?: string | null;
  @IsTermWord('pressure') pressure?: string | null;

  @ApiPropertyOptional({ type: Boolean, nullable: true, default: false })
  @IsOptional()
  @IsBoolean()
  rehearsed?: boolean | null;

  @ApiPropertyOptional({
    type: Boolean,
    nullable: true,
    default: false,
    description: 'whether we can get into it at the line, once the formation is seen',
  })
  @IsOptional()
  @IsBoolean()
  reachableByCheck?: boolean | null;
}

export class MenuCallResponse {
  @ApiProperty({ format: 'uuid', example: EXAMPLE_IDS.menuCall }) id!: string;
  @ApiProperty(SIDE) side!: 'offense' | 'defense';
  @ApiProperty({ example: 'Lantern mesh' }) name!: string;
  @ApiProperty(termProperty('offensivePersonnel, or defensivePersonnel on that side', null)) personnel!: string | null;
  @ApiProperty(termProperty('formation', 'three by one')) formation!: string | null;
  @ApiProperty(termProperty('concept', 'mesh')) concept!: string | null;
  @ApiProperty(termProperty('front', null)) front!: string | null;
  @ApiProperty(termProperty('coverage', null)) coverage!: string | null;
  @ApiProperty(termProperty('pressure', null)) pressure!: string | null;
  @ApiProperty({ example: true }) rehearsed!: boolean;
  @ApiProperty({ example: false, description: 'whether we can get into it at the line' }) reachableByCheck!: boolean;
}

export class MenuCallPage extends PageLink {
  @ApiProperty({ type: [MenuCallResponse] }) items!: MenuCallResponse[];
}
