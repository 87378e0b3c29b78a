import { ApiProperty, ApiPropertyOptional } from '@nestjs/swagger';
import { IsIn, IsInt, IsOptional, IsString, IsUUID, Length, Max, Min } from 'class-validator';
import { EXAMPLE_IDS } from '../../common/examples.js';
import { IdPageQuery, PageLink } from '../../common/page.dto.js';
import { IsVisibleTo, VISIBLE_TO_PROPERTY, type VisibleTo } from '../../common/visible-to.repository.js';
import { IsTermWord, termProperty } from '../../common/term-word.js';

const SIDE = { enum: ['offense', 'defense'], example: 'offense' };
const ORDER = { type: 'integer', minimum: 1, maximum: 2000, example: 12 } as const;
const MENU_CALL = { type: String, format: 'uuid', nullable: true, example: EXAMPLE_IDS.menuCall } as const;
const NOTE = { type: String, nullable: true, maxLength: 500, example: 'signal came late' } as const;

export class OwnCallsQuery extends IdPageQuery {
  @ApiPropertyOptional({ format: 'uuid', description: 'only calls of this game' })
  @IsOptional()
  @IsUUID()
  gameId?: string;

  @ApiPropertyOptional(SIDE)
  @IsOptional()
  @IsIn(SIDE.enum)
  side?: string;
}

export class OwnCallInput {
  @ApiProperty({ format: 'uuid', example: EXAMPLE_IDS.game, description: 'a game of yours' })
  @IsUUID()
  gameId!: string;

  @ApiProperty({ ...ORDER, description: 'of the snap in the game; one call for each side' })
  @IsInt()
  @Min(1)
  @Max(2000)
  orderInGame!: number;

  @ApiProperty(SIDE)
  @IsIn(SIDE.enum)
  side!: 'offense' | 'defense';

  @ApiPropertyOptional({ ...MENU_CALL, description: 'a call of the installed menu' })
  @IsOptional()
  @IsUUID()
  menuCallId?: string | null;

  @IsTermWord('callFamily', 'dropback pass') callFamily?: string | null;
  @IsTermWord('concept', 'mesh') concept?: string | null;
  @IsTermWord('formation') formation?: string | null;
  @IsTermWord('front') front?: string | null;
  @IsTermWord('coverage') coverage?: string | null;
  @IsTermWord('pressure') pressure?: string | null;

  @ApiPropertyOptional(NOTE)
  @IsOptional()
  @IsString()
  @Length(0, 500)
  note?: string | null;

  @IsVisibleTo() visibleTo?: VisibleTo | null;
}

export class OwnCallResponse {
  @ApiProperty({ format: 'uuid', example: EXAMPLE_IDS.match }) id!: string;
  @ApiProperty({ format: 'uuid', example: EXAMPLE_IDS.game }) gameId!: string;
  @ApiProperty(ORDER) orderInGame!: number;
  @ApiProperty(SIDE) side!: 'offense' | 'defense';
  @ApiProperty(MENU_CALL) menuCallId!: string | null;
  @ApiProperty(termProperty('callFamily', 'dropback pass')) callFamily!: string | null;
  @ApiProperty(termProperty('concept', 'mesh')) concept!: string | null;
  @ApiProperty(termProperty('formation', null)) formation!: string | null;
  @ApiProperty(termProperty('front', null)) front!: string | null;
  @ApiProperty(termProperty('coverage', null)) coverage!: string | null;
  @ApiProperty(termProperty('pressure', null)) pressure!: string | null;
  @ApiProperty(NOTE) note!: string | null;
  @ApiProperty(VISIBLE_TO_PROPERTY) visibleTo!: VisibleTo;
}

export class OwnCallPage extends PageLink {
  @ApiProperty({ type: [OwnCallResponse] }) items!: OwnCallResponse[];
}
