import { ApiProperty, ApiPropertyOptional } from '@nestjs/swagger';
import { IsOptional, IsUUID } from 'class-validator';
import { EXAMPLE_IDS } from '../../common/examples.js';
import { VISIBLE_TO_PROPERTY, type VisibleTo } from '../../common/visible-to.repository.js';
import { IdPageQuery, PageLink } from '../../common/page.dto.js';

export class ReportsQuery extends IdPageQuery {
  @ApiPropertyOptional({ format: 'uuid', description: 'only on this opponent' })
  @IsOptional()
  @IsUUID()
  opponentId?: string;

  @ApiPropertyOptional({ format: 'uuid', description: 'only of this event' })
  @IsOptional()
  @IsUUID()
  eventId?: string;
}

const ID = { type: String, format: 'uuid', nullable: true } as const;

/** A report on the shelf; the report itself is read by its id. */
export class ReportSummary {
  @ApiProperty({ format: 'uuid', example: EXAMPLE_IDS.match }) id!: string;
  @ApiProperty({ ...ID, example: EXAMPLE_IDS.event }) eventId!: string | null;
  @ApiProperty({ type: 'integer', nullable: true, example: 1 }) round!: number | null;
  @ApiProperty({ ...ID, example: EXAMPLE_IDS.player, description: 'for whom' }) playerId!: string | null;
  @ApiProperty({ format: 'uuid', example: EXAMPLE_IDS.opponent, description: 'on whom' }) opponentId!: string;
  @ApiProperty({ format: 'date-time', example: '2026-03-01T18:00:00Z' }) madeAt!: string;
  @ApiProperty({ example: '0.1.0' }) codeVersion!: string;
  @ApiProperty(VISIBLE_TO_PROPERTY) visibleTo!: VisibleTo;
}

export class ReportPage extends PageLink {
  @ApiProperty({ type: [ReportSummary] }) items!: ReportSummary[];
}
