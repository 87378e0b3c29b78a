import { ApiProperty, ApiPropertyOptional } from '@nestjs/swagger';
import { ArrayMaxSize, ArrayUnique, IsArray, IsBoolean, IsOptional, IsString, IsUUID, Length } from 'class-validator';
import { EXAMPLE_IDS } from '../../common/examples.js';
import { NamePageQuery, PageLink } from '../../common/page.dto.js';

export class PlayersQuery extends NamePageQuery {
  @ApiPropertyOptional({ description: 'only the player of this handle or alias', example: 'moss' })
  @IsOptional()
  @IsString()
  @Length(1, 80)
  name?: string;
}

export class PlayerInput {
  @ApiProperty({ example: 'Mossback', minLength: 1, maxLength: 80 })
  @IsString()
  @Length(1, 80)
  handle!: string;

  @ApiPropertyOptional({ type: [String], example: ['moss'], description: 'what your clan calls the player besides' })
  @IsOptional()
  @IsArray()
  @ArrayMaxSize(20)
  @ArrayUnique()
  @IsString({ each: true })
  @Length(1, 80, { each: true })
  aliases?: string[] | null;

  @ApiPropertyOptional({
    type: String,
    format: 'uuid',
    nullable: true,
    example: null,
    description: 'the record of the same player, yours or one that you can read; links have one level',
  })
  @IsOptional()
  @IsUUID()
  linkedPlayerId?: string | null;

  @ApiPropertyOptional({ type: Boolean, nullable: true, default: true, description: 'false where the link is a guess' })
  @IsOptional()
  @IsBoolean()
  linkCertain?: boolean | null;
}

export class PlayerResponse {
  @ApiProperty({ format: 'uuid', example: EXAMPLE_IDS.player }) id!: string;
  @ApiProperty({ example: 'Mossback' }) handle!: string;
  @ApiProperty({ type: [String], example: ['moss'], description: "your clan's own, whoever's the player" })
  aliases!: string[];
  @ApiProperty({ type: String, format: 'uuid', nullable: true, example: null }) linkedPlayerId!: string | null;
  @ApiProperty({ example: true }) linkCertain!: boolean;
  @ApiProperty({
    type: String,
    format: 'uuid',
    nullable: true,
    example: null,
    description: 'the public record it was adopted from',
  })
  sourceId!: string | null;
  @ApiProperty({ example: true, description: "the clan's own record" }) own!: boolean;
}

export class PlayerPage extends PageLink {
  @ApiProperty({ type: [PlayerResponse] }) items!: PlayerResponse[];
}
