import { ApiProperty, ApiPropertyOptional } from '@nestjs/swagger';
import { IsOptional, IsString, IsUUID, Length } from 'class-validator';
import { EXAMPLE_IDS } from '../../common/examples.js';
import { IdPageQuery, PageLink } from '../../common/page.dto.js';

export class AuditQuery extends IdPageQuery {
  @ApiPropertyOptional({ format: 'uuid', description: 'only what was done to this' })
  @IsOptional()
  @IsUUID()
  subjectId?: string;

  @ApiPropertyOptional({ description: 'only this kind of deed', example: 'event.published' })
  @IsOptional()
  @IsString()
  @Length(1, 80)
  action?: string;
}

export class AuditEntryResponse {
  @ApiProperty({ format: 'uuid', example: EXAMPLE_IDS.match }) id!: string;
  @ApiProperty({ format: 'date-time', example: '2026-03-01T18:00:00Z' }) at!: string;
  @ApiProperty({ format: 'uuid', example: EXAMPLE_IDS.player }) actorId!: string;
  @ApiProperty({ example: 'Sorrel', description: 'key or member, as it is called now' }) actor!: string;
  @ApiProperty({ example: 'event.published' }) action!: string;
  @ApiProperty({ example: 'event' }) subjectKind!: string;
  @ApiProperty({ type: String, format: 'uuid', nullable: true, example: EXAMPLE_IDS.event }) subjectId!: string | null;
  @ApiProperty({
    type: 'object',
    additionalProperties: true,
    example: { before: 'private' },
    description: 'ids, names of fields and choices; never what a field said',
  })
  details!: Record<string, unknown>;
}

export class AuditPage extends PageLink {
  @ApiProperty({ type: [AuditEntryResponse] }) items!: AuditEntryResponse[];
}
