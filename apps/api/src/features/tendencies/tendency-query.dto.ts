import { ApiPropertyOptional, OmitType } from '@nestjs/swagger';
import { Transform } from 'class-transformer';
import { ArrayMaxSize, IsArray, IsDateString, IsIn, IsOptional, IsString, IsUUID, Length } from 'class-validator';
import { Confidence, RealNumber } from '../../common/query-number.js';
import { IMPORTANCE } from '../../common/words-of-events.js';

/** Which plays a figure of one player draws on; shared by every question about tendencies. */
export class TendencyQuery {
  @ApiPropertyOptional({ enum: ['offense', 'defense'], description: 'whose habits: with the ball, or defending' })
  @IsOptional()
  @IsIn(['offense', 'defense'])
  side: 'offense' | 'defense' = 'offense';

  @Confidence()
  confidence = 0.9;

  @ApiPropertyOptional({ format: 'uuid', description: 'only games of this event' })
  @IsOptional()
  @IsUUID()
  eventId?: string;

  @ApiPropertyOptional({ format: 'uuid', description: 'only games against this player' })
  @IsOptional()
  @IsUUID()
  opponentId?: string;

  @ApiPropertyOptional({ format: 'date', description: 'only games of this day or later' })
  @IsOptional()
  @IsDateString()
  @Length(10, 10)
  from?: string;

  @ApiPropertyOptional({ format: 'date', description: 'only games of this day or earlier' })
  @IsOptional()
  @IsDateString()
  @Length(10, 10)
  to?: string;

  @ApiPropertyOptional({ description: 'only games under these rules', example: '2026.2' })
  @IsOptional()
  @IsString()
  @Length(1, 40)
  rulesVersion?: string;

  @ApiPropertyOptional({ enum: IMPORTANCE, description: 'only games of this importance' })
  @IsOptional()
  @IsIn(IMPORTANCE)
  importance?: string;

  @ApiPropertyOptional({
    type: [String],
    description: 'only plays with this field and value, such as motion:jet or coverage:cover 3; repeat for several',
    example: ['motion:jet'],
  })
  @IsOptional()
  @Transform(({ value }: { value: unknown }) => (typeof value === 'string' ? [value] : value))
  @IsArray()
  @ArrayMaxSize(5)
  @IsString({ each: true })
  @Length(3, 200, { each: true })
  cue?: string[];

  @RealNumber({
    minimum: 1,
    maximum: 3650,
    description: 'a play counts half for every so many days that its game is older than the newest',
  })
  halfLifeDays?: number;
}

/** For questions that are put to a test: a weighted play is no play, so older games cannot count less there. */
export class TestedQuery extends OmitType(TendencyQuery, ['halfLifeDays'] as const) {
  @ApiPropertyOptional({
    enum: ['scout', 'self'],
    default: 'scout',
    description: 'self says it to the player, as what an opponent would learn',
  })
  @IsOptional()
  @IsIn(['scout', 'self'])
  voice: 'scout' | 'self' = 'scout';

  @ApiPropertyOptional({
    enum: ['plays', 'none'],
    default: 'plays',
    description: 'none leaves every list of the plays behind a figure empty, which are most of an answer',
  })
  @IsOptional()
  @IsIn(['plays', 'none'])
  evidence: 'plays' | 'none' = 'plays';
}

/** For questions about what follows what: a play that is filtered out would make strangers of its neighbours. */
export class WholeGamesQuery extends OmitType(TestedQuery, ['cue'] as const) {}

/** For questions about what a player does on defense. */
export class DefendedQuery extends OmitType(TestedQuery, ['side'] as const) {
  @ApiPropertyOptional({ enum: ['defense'], default: 'defense', description: "the player's own defense" })
  @IsOptional()
  @IsIn(['defense'])
  side = 'defense' as const;
}

/** For questions about what a player decides with the ball. */
export class DecidedQuery extends OmitType(WholeGamesQuery, ['side'] as const) {
  @ApiPropertyOptional({ enum: ['offense'], default: 'offense', description: 'with the ball' })
  @IsOptional()
  @IsIn(['offense'])
  side = 'offense' as const;
}

/** What all of these have in common, and what some of them have. */
export type FilterQuery = Omit<TendencyQuery, 'cue' | 'halfLifeDays'> &
  Pick<TendencyQuery, 'cue' | 'halfLifeDays'> & { readonly evidence?: 'plays' | 'none' };
