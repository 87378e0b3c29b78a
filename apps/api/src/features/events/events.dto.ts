import { ApiProperty, ApiPropertyOptional } from '@nestjs/swagger';
import {
  ArrayMaxSize,
  ArrayMinSize,
  ArrayUnique,
  IsArray,
  IsBoolean,
  IsIn,
  IsOptional,
  IsString,
  Length,
} from 'class-validator';
import { AsBoolean } from '../../common/as-boolean.js';
import { EXAMPLE_IDS } from '../../common/examples.js';
import { IsDay } from '../../common/is-day.js';
import { IdPageQuery, PageLink } from '../../common/page.dto.js';
import { IsReference } from '../../common/reference.js';
import { EVENT_STATUS, MATCH_STATUS } from '../../common/words-of-events.js';

export class EventsQuery extends IdPageQuery {
  @ApiPropertyOptional({ enum: EVENT_STATUS })
  @IsOptional()
  @IsIn(EVENT_STATUS)
  status?: string;

  @ApiPropertyOptional({ description: "true: only the clan's own; false: only others' that it can read" })
  @IsOptional()
  @AsBoolean()
  @IsBoolean()
  own?: boolean;
}

export class EventInput {
  @IsReference('lantern-cup')
  reference!: string;

  @ApiProperty({ example: 'Lantern Cup', minLength: 1, maxLength: 200 })
  @IsString()
  @Length(1, 200)
  name!: string;

  @ApiPropertyOptional({ type: String, nullable: true, format: 'date', example: '2026-03-01' })
  @IsOptional()
  @IsDay()
  startsOn?: string | null;

  @ApiPropertyOptional({ type: String, nullable: true, format: 'date', example: '2026-03-08' })
  @IsOptional()
  @IsDay()
  endsOn?: string | null;

  @ApiPropertyOptional({ type: String, nullable: true, example: '2.1', maxLength: 40 })
  @IsOptional()
  @IsString()
  @Length(1, 40)
  rulesVersion?: string | null;

  @ApiPropertyOptional({ enum: EVENT_STATUS, default: 'planned' })
  @IsOptional()
  @IsIn(EVENT_STATUS)
  status?: string | null;

  @ApiPropertyOptional({ type: String, nullable: true, example: 'single elimination', maxLength: 80 })
  @IsOptional()
  @IsString()
  @Length(1, 80)
  structure?: string | null;

  @ApiPropertyOptional({
    type: [String],
    nullable: true,
    example: ['low', 'fair', 'high'],
    description: 'the scale on which the event grades units, from the least to the best',
  })
  @IsOptional()
  @IsArray()
  @ArrayMinSize(2)
  @ArrayMaxSize(20)
  @ArrayUnique()
  @IsString({ each: true })
  @Length(1, 40, { each: true })
  gradeScale?: string[] | null;
}

export class EventResponse {
  @ApiProperty({ format: 'uuid', example: EXAMPLE_IDS.event }) id!: string;
  @ApiProperty({ example: 'lantern-cup' }) reference!: string;
  @ApiProperty({ example: 'Lantern Cup' }) name!: string;
  @ApiProperty({ nullable: true, type: String, format: 'date', example: '2026-03-01' }) startsOn!: string | null;
  @ApiProperty({ nullable: true, type: String, format: 'date', example: '2026-03-08' }) endsOn!: string | null;
  @ApiProperty({ nullable: true, type: String, example: '2.1' }) rulesVersion!: string | null;
  @ApiProperty({ enum: EVENT_STATUS, example: 'running' }) status!: string;
  @ApiProperty({ nullable: true, type: String, example: 'single elimination' }) structure!: string | null;
  @ApiProperty({ nullable: true, type: [String], example: ['low', 'fair', 'high'] }) gradeScale!: string[] | null;
  @ApiProperty({
    nullable: true,
    type: String,
    format: 'uuid',
    example: null,
    description: 'the public event it was adopted from',
  })
  sourceId!: string | null;
  @ApiProperty({ example: true, description: "the clan's own record, not one that another clan published" })
  own!: boolean;
}

export class EventPage extends PageLink {
  @ApiProperty({ type: [EventResponse] }) items!: EventResponse[];
}

export class BracketMatchResponse {
  @ApiProperty({ format: 'uuid', example: EXAMPLE_IDS.match }) id!: string;
  @ApiProperty({ example: 'main', description: 'main, losers, final, third place, swiss, or group 1, group 2, ...' })
  stage!: string;
  @ApiProperty({ example: 1 }) round!: number;
  @ApiProperty({ example: 'quarter-final' }) roundName!: string;
  @ApiProperty({ example: 1, description: 'place within the round; places 2p-1 and 2p feed place p of the next round' })
  position!: number;
  @ApiProperty({ nullable: true, type: String, example: 'Mossback' }) home!: string | null;
  @ApiProperty({ nullable: true, type: String, example: 'Brass Heron' }) away!: string | null;
  @ApiProperty({ nullable: true, type: String, format: 'uuid', example: EXAMPLE_IDS.player })
  homePlayerId!: string | null;
  @ApiProperty({ nullable: true, type: String, format: 'uuid', example: EXAMPLE_IDS.opponent })
  awayPlayerId!: string | null;
  @ApiProperty({ nullable: true, type: String, format: 'uuid', example: null }) winnerPlayerId!: string | null;
  @ApiProperty({ enum: MATCH_STATUS, example: 'ready' }) status!: string;
}

export class BracketResponse {
  @ApiProperty({ type: EventResponse }) event!: EventResponse;
  @ApiProperty({ type: [BracketMatchResponse] }) matches!: BracketMatchResponse[];
}
