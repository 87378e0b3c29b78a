import { ApiProperty, ApiPropertyOptional } from '@nestjs/swagger';
import { IsIn, IsOptional, IsString, IsUUID, Length, Matches } from 'class-validator';

export class ImportQuery {
  @ApiPropertyOptional({ enum: ['check', 'commit'], description: 'check looks for problems and writes nothing' })
  @IsOptional()
  @IsIn(['check', 'commit'])
  mode: 'check' | 'commit' = 'commit';

  @ApiPropertyOptional({ format: 'uuid', description: "a kept mapping, for a sheet in a person's own words (CSV)" })
  @IsOptional()
  @IsUUID()
  mapping?: string;

  @ApiPropertyOptional({
    enum: ['tell', 'refuse'],
    description: 'what becomes of words that the mapping does not explain: told and left out, or nothing is imported',
  })
  @IsOptional()
  @IsIn(['tell', 'refuse'])
  leftovers: 'tell' | 'refuse' = 'tell';
}

export class ChartQuery extends ImportQuery {
  @ApiPropertyOptional({ type: String, description: 'name of the chart within its game', example: 'main' })
  @IsOptional()
  @Matches(/^[a-z0-9][a-z0-9-]{0,79}$/)
  chart = 'main';

  @ApiPropertyOptional({ description: 'who charted' })
  @IsOptional()
  @IsString()
  @Length(1, 80)
  chartedBy?: string;

  @ApiPropertyOptional({ enum: ['home', 'away'], description: 'only the snaps of this player were charted' })
  @IsOptional()
  @IsIn(['home', 'away'])
  offense?: 'home' | 'away';

  @ApiPropertyOptional({ description: 'only these downs were charted', example: '3,4' })
  @IsOptional()
  @Matches(/^[1-4](,[1-4])*$/)
  downs?: string;

  @ApiPropertyOptional({ description: 'only these quarters were charted', example: '3,4' })
  @IsOptional()
  @Matches(/^([1-9]|1[0-2])(,([1-9]|1[0-2]))*$/)
  quarters?: string;

  @ApiPropertyOptional({ description: 'only these fields were charted', example: 'down,distance,shell,coverage' })
  @IsOptional()
  @Matches(/^[A-Za-z]+(,[A-Za-z]+)*$/)
  fields?: string;
}

export class ImportedChart {
  @ApiProperty({ example: 'harvest-qf-1' }) game!: string;
  @ApiProperty({ example: 'main' }) chart!: string;
  @ApiProperty({ type: String, format: 'uuid', nullable: true, description: 'null for one that a check does not make' })
  chartId!: string | null;
  @ApiProperty({ example: 1 }) revision!: number;
  @ApiProperty({ example: 92 }) plays!: number;
  @ApiProperty({ description: 'false when the very same chart was there before' }) created!: boolean;
}

export class ContinuityBreakResponse {
  @ApiProperty() game!: string;
  @ApiProperty() chart!: string;
  @ApiProperty() order!: number;
  @ApiProperty() field!: string;
  @ApiProperty() found!: string;
  @ApiProperty() expected!: string;
  @ApiProperty() message!: string;
}

export class LeftoverResponse {
  @ApiProperty({ example: 'Look' }) header!: string;
  @ApiProperty({ example: 'gun trips nasty rt' }) cell!: string;
  @ApiProperty({ type: [String], example: ['nasty'] }) words!: readonly string[];
  @ApiProperty({ enum: ['not understood', 'contradicts itself'] }) reason!: string;
  @ApiProperty({ description: 'rows with this cell', example: 12 }) count!: number;
  @ApiProperty({ description: 'the first of them', example: 7 }) firstRow!: number;
}

export class ImportResponse {
  @ApiProperty({ enum: ['check', 'commit'] }) mode!: string;
  @ApiProperty({ description: 'new rows by kind', example: { game: 1, chart: 1, play: 92 } })
  created!: Readonly<Record<string, number>>;
  @ApiProperty({ description: 'rows that were there before, by kind', example: { player: 2 } })
  matched!: Readonly<Record<string, number>>;
  @ApiProperty({ type: [ImportedChart] }) charts!: readonly ImportedChart[];
  @ApiProperty({ description: 'rows with cells of which the mapping explains only a part' }) totalLeftovers!: number;
  @ApiProperty({ type: [LeftoverResponse], description: 'such cells, each once, the most frequent first' })
  leftovers!: readonly LeftoverResponse[];
  @ApiProperty({ description: 'plays that do not follow from the play before; kept as they are' })
  totalContinuityBreaks!: number;
  @ApiProperty({ type: [ContinuityBreakResponse], description: 'the first of them' })
  continuityBreaks!: readonly ContinuityBreakResponse[];
}
