import { ApiProperty, ApiPropertyOptional } from '@nestjs/swagger';
import { Type } from 'class-transformer';
import {
  ArrayMaxSize,
  ArrayMinSize,
  IsArray,
  IsBoolean,
  IsIn,
  IsInt,
  IsOptional,
  IsUUID,
  Matches,
  Max,
  Min,
  ValidateNested,
} from 'class-validator';
import { EXAMPLE_IDS } from '../../common/examples.js';

export const STRUCTURES = [
  'single elimination',
  'double elimination',
  'swiss',
  'round robin',
  'groups into a bracket',
] as const;
export type Structure = (typeof STRUCTURES)[number];

const STAGE = /^(main|losers|final|third place|swiss|group [1-9][0-9]{0,3})$/;
const STAGE_PROPERTY = {
  type: String,
  pattern: STAGE.source,
  example: 'main',
  description: 'main, losers, final, third place, swiss, or group 1, group 2, ...',
} as const;

export class PlaceInBracket {
  @ApiProperty(STAGE_PROPERTY)
  @Matches(STAGE)
  stage!: string;

  @ApiProperty({ type: 'integer', minimum: 1, maximum: 4096, example: 2 })
  @IsInt()
  @Min(1)
  @Max(4096)
  round!: number;

  @ApiProperty({ type: 'integer', minimum: 1, maximum: 4096, example: 1 })
  @IsInt()
  @Min(1)
  @Max(4096)
  position!: number;

  @ApiProperty({ enum: ['home', 'away'], example: 'home' })
  @IsIn(['home', 'away'])
  side!: 'home' | 'away';
}

/** A match of a bracket that is entered as it is: who starts in it, and where its winner and its loser go. */
export class EnteredMatch {
  @ApiProperty(STAGE_PROPERTY)
  @Matches(STAGE)
  stage!: string;

  @ApiProperty({ type: 'integer', minimum: 1, maximum: 30, example: 1 })
  @IsInt()
  @Min(1)
  @Max(30)
  round!: number;

  @ApiProperty({ type: 'integer', minimum: 1, maximum: 4096, example: 1 })
  @IsInt()
  @Min(1)
  @Max(4096)
  position!: number;

  @ApiPropertyOptional({ type: 'integer', minimum: 1, maximum: 9, default: 1 })
  @IsOptional()
  @IsInt()
  @Min(1)
  @Max(9)
  bestOf?: number;

  @ApiPropertyOptional({ type: String, format: 'uuid', nullable: true, example: EXAMPLE_IDS.entrant })
  @IsOptional()
  @IsUUID()
  homeEntrantId?: string | null;

  @ApiPropertyOptional({ type: String, format: 'uuid', nullable: true, example: null })
  @IsOptional()
  @IsUUID()
  awayEntrantId?: string | null;

  @ApiPropertyOptional({ type: PlaceInBracket, nullable: true })
  @IsOptional()
  @ValidateNested()
  @Type(() => PlaceInBracket)
  winnerTo?: PlaceInBracket | null;

  @ApiPropertyOptional({ type: PlaceInBracket, nullable: true })
  @IsOptional()
  @ValidateNested()
  @Type(() => PlaceInBracket)
  loserTo?: PlaceInBracket | null;

  @ApiPropertyOptional({
    default: false,
    description: 'a second final, played only when the first was won by its away side',
  })
  @IsOptional()
  @IsBoolean()
  decider?: boolean;
}

export class BracketInput {
  @ApiPropertyOptional({
    enum: STRUCTURES,
    example: 'double elimination',
    description: 'made from the entrants of the event in the order of their seeds; give this or matches',
  })
  @IsOptional()
  @IsIn(STRUCTURES)
  structure?: Structure;

  @ApiPropertyOptional({ default: false, description: 'single elimination, groups: a match for the third place' })
  @IsOptional()
  @IsBoolean()
  thirdPlace?: boolean;

  @ApiPropertyOptional({
    default: true,
    description: 'double elimination: whether a first defeat in the final leads to a second one',
  })
  @IsOptional()
  @IsBoolean()
  secondFinal?: boolean;

  @ApiPropertyOptional({
    type: 'integer',
    minimum: 1,
    maximum: 30,
    description: 'swiss: how many rounds; enough to leave one unbeaten where not given',
  })
  @IsOptional()
  @IsInt()
  @Min(1)
  @Max(30)
  rounds?: number;

  @ApiPropertyOptional({ type: 'integer', minimum: 1, maximum: 512 })
  @IsOptional()
  @IsInt()
  @Min(1)
  @Max(512)
  groups?: number;

  @ApiPropertyOptional({
    type: 'integer',
    minimum: 1,
    maximum: 64,
    description: 'groups: how many of each go on; 2 where not given',
  })
  @IsOptional()
  @IsInt()
  @Min(1)
  @Max(64)
  advance?: number;

  @ApiPropertyOptional({ type: 'integer', minimum: 1, maximum: 9, default: 1 })
  @IsOptional()
  @IsInt()
  @Min(1)
  @Max(9)
  bestOf?: number;

  @ApiPropertyOptional({
    type: 'integer',
    minimum: 1,
    maximum: 9,
    description: 'of the last round; bestOf where not given',
  })
  @IsOptional()
  @IsInt()
  @Min(1)
  @Max(9)
  finalBestOf?: number;

  @ApiPropertyOptional({ type: [EnteredMatch], description: 'the bracket as it is, where nobody else is to make it' })
  @IsOptional()
  @IsArray()
  @ArrayMinSize(1)
  @ArrayMaxSize(9000)
  @ValidateNested({ each: true })
  @Type(() => EnteredMatch)
  matches?: EnteredMatch[];
}

export class BracketMadeResponse {
  @ApiProperty({ format: 'uuid', example: EXAMPLE_IDS.event }) eventId!: string;
  @ApiProperty({ example: 'double elimination' }) structure!: string;
  @ApiProperty({ example: 16 }) entrants!: number;
  @ApiProperty({ example: 31 }) matches!: number;
}

export class ResultInput {
  @ApiPropertyOptional({
    enum: ['home', 'away'],
    nullable: true,
    example: 'home',
    description: 'null: not decided, as when a result is taken back or a match of several games is under way',
  })
  @IsOptional()
  @IsIn(['home', 'away'])
  winner?: 'home' | 'away' | null;

  @ApiPropertyOptional({ type: 'integer', minimum: 0, maximum: 9, default: 0 })
  @IsOptional()
  @IsInt()
  @Min(0)
  @Max(9)
  homeWins?: number;

  @ApiPropertyOptional({ type: 'integer', minimum: 0, maximum: 9, default: 0 })
  @IsOptional()
  @IsInt()
  @Min(0)
  @Max(9)
  awayWins?: number;

  @ApiPropertyOptional({ default: false, description: 'the other did not play or gave up' })
  @IsOptional()
  @IsBoolean()
  forfeited?: boolean;

  @ApiPropertyOptional({
    default: false,
    description: 'take back later results that were played by others than would now meet, instead of refusing',
  })
  @IsOptional()
  @IsBoolean()
  drop?: boolean;
}

export class ResultResponse {
  @ApiProperty({ format: 'uuid', example: EXAMPLE_IDS.event }) eventId!: string;
  @ApiProperty({ format: 'uuid', example: EXAMPLE_IDS.match }) matchId!: string;
  @ApiProperty({ enum: ['ready', 'finished', 'forfeited'], example: 'finished' }) status!: string;
  @ApiProperty({ type: String, format: 'uuid', nullable: true, example: EXAMPLE_IDS.entrant })
  winnerEntrantId!: string | null;
  @ApiProperty({ type: [String], format: 'uuid', description: 'matches whose players changed with it' })
  movedMatchIds!: string[];
  @ApiProperty({ type: [String], format: 'uuid', description: 'matches whose results were taken back with it' })
  droppedMatchIds!: string[];
}
