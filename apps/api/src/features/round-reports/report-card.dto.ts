import { ApiPropertyOptional } from '@nestjs/swagger';
import { IsOptional, IsUUID } from 'class-validator';
import { EXAMPLE_IDS } from '../../common/examples.js';
import { PaperQuery } from '../../common/paper-query.dto.js';

export class ReportCardQuery extends PaperQuery {
  @ApiPropertyOptional({
    format: 'uuid',
    example: EXAMPLE_IDS.game,
    description: 'the game to judge the report by; else those of its event from its day on',
  })
  @IsOptional()
  @IsUUID()
  gameId?: string;
}
