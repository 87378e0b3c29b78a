import { ApiProperty, ApiPropertyOptional } from '@nestjs/swagger';
import { IsInt, IsObject, IsOptional, IsString, IsUUID, Length, Max, Min } from 'class-validator';
import { EXAMPLE_IDS } from '../../common/examples.js';
import { PageLink } from '../../common/page.dto.js';

const GRADES = { type: 'object', additionalProperties: { type: 'string' }, example: { 'pass rush': 'high' } } as const;

export class EntrantInput {
  @ApiProperty({ format: 'uuid', example: EXAMPLE_IDS.player, description: 'one of your players, once an event' })
  @IsUUID()
  playerId!: string;

  @ApiPropertyOptional({ type: 'integer', nullable: true, minimum: 1, maximum: 4096, example: 3 })
  @IsOptional()
  @IsInt()
  @Min(1)
  @Max(4096)
  seed?: number | null;

  @ApiPropertyOptional({
    type: String,
    nullable: true,
    maxLength: 2000,
    example: 'two changes left after round 2',
    description: 'squad, limits and changes, in words',
  })
  @IsOptional()
  @IsString()
  @Length(0, 2000)
  rosterNotes?: string | null;

  @ApiPropertyOptional({ ...GRADES, description: "unit -> grade on the event's own scale" })
  @IsOptional()
  @IsObject()
  unitGrades?: Record<string, unknown> | null;
}

export class EntrantResponse {
  @ApiProperty({ format: 'uuid', example: EXAMPLE_IDS.entrant }) id!: string;
  @ApiProperty({ format: 'uuid', example: EXAMPLE_IDS.event }) eventId!: string;
  @ApiProperty({ format: 'uuid', example: EXAMPLE_IDS.player }) playerId!: string;
  @ApiProperty({ example: 'Mossback' }) handle!: string;
  @ApiProperty({ type: 'integer', nullable: true, example: 3 }) seed!: number | null;
  @ApiProperty({ type: String, nullable: true, example: 'two changes left after round 2' })
  rosterNotes!: string | null;
  @ApiProperty(GRADES) unitGrades!: Record<string, unknown>;
}

export class EntrantPage extends PageLink {
  @ApiProperty({ type: [EntrantResponse] }) items!: EntrantResponse[];
}
