import { ApiProperty, ApiPropertyOptional } from '@nestjs/swagger';
import { Type } from 'class-transformer';
import {
  ArrayMaxSize,
  IsArray,
  IsIn,
  IsInt,
  IsISO8601,
  IsObject,
  IsOptional,
  IsString,
  IsUrl,
  IsUUID,
  Length,
  Max,
  Min,
  ValidateNested,
} from 'class-validator';
import { EXAMPLE_IDS } from '../../common/examples.js';
import { PageLink } from '../../common/page.dto.js';
import { IsReference } from '../../common/reference.js';
import { ENDINGS, IMPORTANCE, VIDEO_KINDS } from '../../common/words-of-events.js';

const ID = { type: String, format: 'uuid', nullable: true, example: null } as const;
const PLAYED_AT = { type: String, format: 'date-time', nullable: true, example: '2026-03-01T18:00:00Z' } as const;
const RULES = { type: String, nullable: true, maxLength: 40, example: '2.1' } as const;
const QUARTER = { type: 'integer', nullable: true, minimum: 1, maximum: 15, example: 4 } as const;
const SETTINGS = {
  type: 'object',
  additionalProperties: true,
  example: { fouls: 'on', fatigue: 'off' },
  description: 'what of the simulation changes play',
} as const;
const SQUAD = { type: String, nullable: true, maxLength: 200, example: 'any squad' } as const;
const TOSS = { type: String, nullable: true, maxLength: 200, example: 'home won and received' } as const;
const SCORE = { type: 'integer', nullable: true, minimum: 0, maximum: 199, example: 21 } as const;

export class VideoInput {
  @ApiProperty({ enum: VIDEO_KINDS, example: 'neutral' })
  @IsIn(VIDEO_KINDS)
  kind!: string;

  @ApiProperty({ format: 'uri', maxLength: 2000, example: 'https://film.example/lantern-cup-1' })
  @IsUrl({ protocols: ['http', 'https'], require_protocol: true, require_tld: false })
  @Length(1, 2000)
  url!: string;

  @ApiPropertyOptional({
    type: 'integer',
    default: 0,
    description: 'second of this video at which second 0 of the charted film is',
  })
  @IsOptional()
  @IsInt()
  @Min(-86_400)
  @Max(86_400)
  offsetSeconds?: number | null;
}

export class GameInput {
  @IsReference('lantern-cup-r1-p3')
  reference!: string;

  @ApiPropertyOptional({ ...ID, description: 'an event of yours; who reads the event reads the game' })
  @IsOptional()
  @IsUUID()
  eventId?: string | null;

  @ApiPropertyOptional({ ...ID, description: 'a match of that event' })
  @IsOptional()
  @IsUUID()
  matchId?: string | null;

  @ApiPropertyOptional({ type: 'integer', minimum: 1, maximum: 9, default: 1, description: 'within its match' })
  @IsOptional()
  @IsInt()
  @Min(1)
  @Max(9)
  gameNumber?: number | null;

  @ApiPropertyOptional({ type: 'integer', nullable: true, minimum: 1, maximum: 30, example: 1 })
  @IsOptional()
  @IsInt()
  @Min(1)
  @Max(30)
  round?: number | null;

  @ApiProperty({ format: 'uuid', example: EXAMPLE_IDS.player })
  @IsUUID()
  homePlayerId!: string;

  @ApiProperty({ format: 'uuid', example: EXAMPLE_IDS.opponent })
  @IsUUID()
  awayPlayerId!: string;

  @ApiPropertyOptional(PLAYED_AT)
  @IsOptional()
  @IsISO8601({ strict: true })
  playedAt?: string | null;

  @ApiProperty({ enum: IMPORTANCE, example: 'elimination' })
  @IsIn(IMPORTANCE)
  importance!: string;

  @ApiPropertyOptional(RULES)
  @IsOptional()
  @IsString()
  @Length(1, 40)
  rulesVersion?: string | null;

  @ApiPropertyOptional(QUARTER)
  @IsOptional()
  @IsInt()
  @Min(1)
  @Max(15)
  quarterMinutes?: number | null;

  @ApiPropertyOptional(SETTINGS)
  @IsOptional()
  @IsObject()
  settings?: Record<string, unknown> | null;

  @ApiPropertyOptional(SQUAD)
  @IsOptional()
  @IsString()
  @Length(0, 200)
  homeSquad?: string | null;

  @ApiPropertyOptional(SQUAD)
  @IsOptional()
  @IsString()
  @Length(0, 200)
  awaySquad?: string | null;

  @ApiPropertyOptional(TOSS)
  @IsOptional()
  @IsString()
  @Length(0, 200)
  coinToss?: string | null;

  @ApiPropertyOptional(SCORE)
  @IsOptional()
  @IsInt()
  @Min(0)
  @Max(199)
  homeScore?: number | null;

  @ApiPropertyOptional(SCORE)
  @IsOptional()
  @IsInt()
  @Min(0)
  @Max(199)
  awayScore?: number | null;

  @ApiPropertyOptional({ enum: ENDINGS, default: 'completed' })
  @IsOptional()
  @IsIn(ENDINGS)
  ending?: string | null;

  @ApiPropertyOptional({ ...ID, description: 'the contest of a record that another clan keeps of the same game' })
  @IsOptional()
  @IsUUID()
  linkedContestId?: string | null;

  @ApiPropertyOptional({ type: [VideoInput] })
  @IsOptional()
  @IsArray()
  @ArrayMaxSize(10)
  @ValidateNested({ each: true })
  @Type(() => VideoInput)
  videos?: VideoInput[] | null;
}

export class VideoResponse {
  @ApiProperty({ enum: VIDEO_KINDS, example: 'neutral' }) kind!: string;
  @ApiProperty({ example: 'https://film.example/lantern-cup-1' }) url!: string;
  @ApiProperty({ type: 'integer', example: 5 }) offsetSeconds!: number;
}

export class ChartSummary {
  @ApiProperty({ format: 'uuid', example: EXAMPLE_IDS.chart }) id!: string;
  @ApiProperty({ example: 'main' }) reference!: string;
  @ApiProperty({ nullable: true, type: String, example: 'the analyst' }) chartedBy!: string | null;
  @ApiProperty({ type: 'integer', example: 92 }) plays!: number;
  @ApiProperty({ type: 'integer', example: 4 }) revision!: number;
  @ApiProperty({
    type: 'object',
    additionalProperties: true,
    example: { offense: null, downs: [3, 4], quarters: null, fields: null },
    description: 'what of the film was charted; null parts are covered whole',
  })
  filmScope!: object;
}

export class GameResponse {
  @ApiProperty({ format: 'uuid', example: EXAMPLE_IDS.game }) id!: string;
  @ApiProperty({ example: 'lantern-cup-r1-p3' }) reference!: string;
  @ApiProperty({ ...ID, example: EXAMPLE_IDS.event }) eventId!: string | null;
  @ApiProperty({ ...ID, example: EXAMPLE_IDS.match }) matchId!: string | null;
  @ApiProperty({ type: 'integer', example: 1 }) gameNumber!: number;
  @ApiProperty({ type: 'integer', nullable: true, example: 1 }) round!: number | null;
  @ApiProperty({ format: 'uuid', example: EXAMPLE_IDS.player }) homePlayerId!: string;
  @ApiProperty({ format: 'uuid', example: EXAMPLE_IDS.opponent }) awayPlayerId!: string;
  @ApiProperty({ example: 'Mossback' }) home!: string;
  @ApiProperty({ example: 'Brass Heron' }) away!: string;
  @ApiProperty(PLAYED_AT) playedAt!: string | null;
  @ApiProperty({ enum: IMPORTANCE, example: 'elimination' }) importance!: string;
  @ApiProperty(RULES) rulesVersion!: string | null;
  @ApiProperty(QUARTER) quarterMinutes!: number | null;
  @ApiProperty(SETTINGS) settings!: Record<string, unknown>;
  @ApiProperty(SQUAD) homeSquad!: string | null;
  @ApiProperty(SQUAD) awaySquad!: string | null;
  @ApiProperty(TOSS) coinToss!: string | null;
  @ApiProperty(SCORE) homeScore!: number | null;
  @ApiProperty(SCORE) awayScore!: number | null;
  @ApiProperty({ enum: ENDINGS, example: 'completed' }) ending!: string;
  @ApiProperty({ format: 'uuid', example: EXAMPLE_IDS.contest, description: 'what was really played, once' })
  contestId!: string;
  @ApiProperty(ID) linkedContestId!: string | null;
  @ApiProperty({ type: [VideoResponse] }) videos!: VideoResponse[];
  @ApiProperty({ type: [ChartSummary] }) charts!: ChartSummary[];
  @ApiProperty({ example: true, description: "the clan's own" }) own!: boolean;
}

export class GamePage extends PageLink {
  @ApiProperty({ type: [GameResponse] }) items!: GameResponse[];
}
