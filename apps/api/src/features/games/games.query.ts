import { ApiPropertyOptional } from '@nestjs/swagger';
import { IsBoolean, IsIn, IsOptional, IsUUID } from 'class-validator';
import { AsBoolean } from '../../common/as-boolean.js';
import { IdPageQuery } from '../../common/page.dto.js';
import { IMPORTANCE } from '../../common/words-of-events.js';

export class GamesQuery extends IdPageQuery {
  @ApiPropertyOptional({ format: 'uuid', description: 'only games of this player' })
  @IsOptional()
  @IsUUID()
  playerId?: string;

  @ApiPropertyOptional({ format: 'uuid', description: 'only games of this event' })
  @IsOptional()
  @IsUUID()
  eventId?: string;

  @ApiPropertyOptional({ enum: IMPORTANCE })
  @IsOptional()
  @IsIn(IMPORTANCE)
  importance?: string;

  @ApiPropertyOptional({ description: "true: only the clan's own; false: only others' that it can read" })
  @IsOptional()
  @AsBoolean()
  @IsBoolean()
  own?: boolean;
}
