import { ApiPropertyOptional } from '@nestjs/swagger';
import { IsOptional, IsUUID } from 'class-validator';
import { IdPageQuery } from '../../common/page.dto.js';

export class GamesQuery extends IdPageQuery {
  @ApiPropertyOptional({ format: 'uuid', description: 'only games of this player' })
  @IsOptional()
  @IsUUID()
  playerId?: string;

  @ApiPropertyOptional({ format: 'uuid', description: 'only games of this event' })
  @IsOptional()
  @IsUUID()
  eventId?: string;
}
