import { ApiProperty, ApiPropertyOptional } from '@nestjs/swagger';
import { IsOptional, IsUUID } from 'class-validator';
import { EXAMPLE_IDS } from '../../common/examples.js';

export class FilmQuery {
  @ApiPropertyOptional({ format: 'uuid', description: 'only plays of this game; needed for a WebVTT track' })
  @IsOptional()
  @IsUUID()
  game?: string;
}

export class FilmEntryResponse {
  @ApiProperty({ example: 1, description: '1 for what to watch first' }) rank!: number;
  @ApiProperty({ format: 'uuid', example: EXAMPLE_IDS.game }) gameId!: string;
  @ApiProperty({
    nullable: true,
    type: String,
    example: 'Brass Heron - Mossback, Pond Cup, 2026-03-01',
    description: 'null where the reader may not know the game',
  })
  game!: string | null;
  @ApiProperty({ format: 'uuid', example: EXAMPLE_IDS.chart }) chartId!: string;
  @ApiProperty({ example: 62, description: 'number of the play in its chart' }) playNumber!: number;
  @ApiProperty({ example: 2107, description: 'second of the video' }) second!: number;
  @ApiProperty({ example: '35:07' }) at!: string;
  @ApiProperty({
    nullable: true,
    type: String,
    example: 'https://video.example/game-5#t=2107',
    description: 'the video at that second, as a media fragment; null without a video',
  })
  address!: string | null;
  @ApiProperty({ example: 'stands out: two high (shell shown), defense, all snaps' }) reason!: string;
  @ApiProperty({
    type: [String],
    example: ['defense/all-snaps/shell/term:301'],
    description: 'claims of the report that the play is evidence of',
  })
  claimIds!: readonly string[];
}

export class FilmResponse {
  @ApiProperty({ type: [FilmEntryResponse] }) film!: FilmEntryResponse[];
}
