import { Type } from 'class-transformer';
import {
  ArrayMaxSize,
  IsArray,
  IsBoolean,
  IsDateString,
  IsIn,
  IsInt,
  IsISO8601,
  IsObject,
  IsOptional,
  IsString,
  IsUrl,
  IsUUID,
  Length,
  Matches,
  Max,
  Min,
  ValidateNested,
} from 'class-validator';
import { ENDINGS, EVENT_STATUS, IMPORTANCE, MATCH_STATUS, VIDEO_KINDS } from '../../common/words-of-events.js';

/** A short name that a clan gives to an event, a game or a chart, unique among its own. */
const REFERENCE = /^[a-z0-9][a-z0-9-]{0,79}$/;
const REFERENCE_RULE = { message: 'lower-case letters, digits and dashes, at most 80' };

export class PlayerRecord {
  @IsOptional() @IsUUID() id?: string;
  @IsString() @Length(1, 80) handle!: string;
  @IsOptional()
  @IsArray()
  @ArrayMaxSize(20)
  @IsString({ each: true })
  @Length(1, 80, { each: true })
  aliases?: string[];
  @IsOptional() @IsUUID() linkedPlayerId?: string;
}

export class EventRecord {
  @IsOptional() @IsUUID() id?: string;
  @Matches(REFERENCE, REFERENCE_RULE) reference!: string;
  @IsString() @Length(1, 200) name!: string;
  @IsOptional() @IsDateString() startsOn?: string;
  @IsOptional() @IsDateString() endsOn?: string;
  @IsOptional() @IsString() @Length(1, 40) rulesVersion?: string;
  @IsIn(EVENT_STATUS) status!: string;
  @IsOptional() @IsString() @Length(1, 80) structure?: string;
}

export class EntrantRecord {
  @Matches(REFERENCE, REFERENCE_RULE) event!: string;
  @IsString() @Length(1, 80) player!: string;
  @IsOptional() @IsInt() @Min(1) @Max(4096) seed?: number;
  @IsOptional() @IsString() @Length(0, 2000) rosterNotes?: string;
}

export class MatchRecord {
  @Matches(REFERENCE, REFERENCE_RULE) event!: string;
  @IsInt() @Min(1) @Max(30) round!: number;
  @IsInt() @Min(1) @Max(4096) position!: number;
  @IsOptional() @IsString() home?: string | null;
  @IsOptional() @IsString() away?: string | null;
  @IsOptional() @IsString() winner?: string | null;
  @IsOptional() @IsInt() @Min(1) @Max(9) bestOf?: number;
  @IsOptional() @IsInt() @Min(0) @Max(9) homeWins?: number;
  @IsOptional() @IsInt() @Min(0) @Max(9) awayWins?: number;
  @IsIn(MATCH_STATUS) status!: string;
  @IsOptional() @IsISO8601() scheduledAt?: string;
}

export class MatchPlace {
  @IsInt() @Min(1) @Max(30) round!: number;
  @IsInt() @Min(1) @Max(4096) position!: number;
}

export class VideoRecord {
  @IsIn(VIDEO_KINDS) kind!: string;
  @IsUrl({ protocols: ['http', 'https'], require_protocol: true, require_tld: false }) @Length(1, 2000) url!: string;
  @IsOptional() @IsInt() @Min(-86_400) @Max(86_400) offsetSeconds?: number;
}

export class GameRecord {
  @IsOptional() @IsUUID() id?: string;
  @Matches(REFERENCE, REFERENCE_RULE) reference!: string;
  @IsOptional() @Matches(REFERENCE, REFERENCE_RULE) event?: string | null;
  @IsOptional() @ValidateNested() @Type(() => MatchPlace) match?: MatchPlace | null;
  @IsOptional() @IsUUID() contestId?: string;
  @IsOptional() @IsUUID() linkedContestId?: string;
  @IsOptional() @IsInt() @Min(1) @Max(9) gameNumber?: number;
  @IsString() @Length(1, 80) home!: string;
  @IsString() @Length(1, 80) away!: string;
  @IsOptional() @IsISO8601() playedAt?: string;
  @IsIn(IMPORTANCE) importance!: string;
  @IsOptional() @IsString() @Length(1, 40) rulesVersion?: string;
  @IsOptional() @IsInt() @Min(1) @Max(15) quarterMinutes?: number;
  @IsOptional() @IsObject() settings?: Record<string, unknown>;
  @IsOptional() @IsString() @Length(0, 200) homeSquad?: string;
  @IsOptional() @IsString() @Length(0, 200) awaySquad?: string;
  @IsOptional() @IsString() @Length(0, 200) coinToss?: string;
  @IsOptional() @IsInt() @Min(0) @Max(199) homeScore?: number;
  @IsOptional() @IsInt() @Min(0) @Max(199) awayScore?: number;
  @IsOptional() @IsIn(ENDINGS) ending?: string;
  @IsOptional()
  @IsArray()
  @ArrayMaxSize(10)
  @ValidateNested({ each: true })
  @Type(() => VideoRecord)
  videos?: VideoRecord[];
}

export class FilmScopeRecord {
  @IsOptional() @IsIn(['home', 'away']) offense?: 'home' | 'away' | null;
  @IsOptional() @IsArray() @IsInt({ each: true }) @Min(1, { each: true }) @Max(4, { each: true }) downs?:
    number[] | null;
  @IsOptional() @IsArray() @IsInt({ each: true }) @Min(1, { each: true }) @Max(12, { each: true }) quarters?:
    number[] | null;
  @IsOptional() @IsArray() @ArrayMaxSize(100) @IsString({ each: true }) fields?: string[] | null;
}

export class ChartRecord {
  @Matches(REFERENCE, REFERENCE_RULE) game!: string;
  @IsOptional() @Matches(REFERENCE, REFERENCE_RULE) reference?: string;
  @IsOptional() @IsString() @Length(1, 80) chartedBy?: string;
  @IsOptional() @IsISO8601() chartedAt?: string;
  @IsOptional() @ValidateNested() @Type(() => FilmScopeRecord) filmScope?: FilmScopeRecord;
}

export class OwnCallRecord {
  @Matches(REFERENCE, REFERENCE_RULE) game!: string;
  @IsInt() @Min(1) @Max(2000) order!: number;
  @IsIn(['offense', 'defense']) side!: string;
  @IsOptional() @IsString() menuCall?: string;
  @IsOptional() @IsString() callFamily?: string;
  @IsOptional() @IsString() concept?: string;
  @IsOptional() @IsString() formation?: string;
  @IsOptional() @IsString() front?: string;
  @IsOptional() @IsString() coverage?: string;
  @IsOptional() @IsString() pressure?: string;
  @IsOptional() @IsString() @Length(0, 500) note?: string;
}

export class MenuCallRecord {
  @IsIn(['offense', 'defense']) side!: string;
  @IsString() @Length(1, 80) name!: string;
  @IsOptional() @IsString() personnel?: string;
  @IsOptional() @IsString() formation?: string;
  @IsOptional() @IsString() concept?: string;
  @IsOptional() @IsString() front?: string;
  @IsOptional() @IsString() coverage?: string;
  @IsOptional() @IsString() pressure?: string;
  @IsOptional() @IsBoolean() rehearsed?: boolean;
  @IsOptional() @IsBoolean() reachableByCheck?: boolean;
}

/** The kinds of record that a JSON Lines file may hold beside plays. */
export const RECORDS = {
  player: PlayerRecord,
  event: EventRecord,
  entrant: EntrantRecord,
  match: MatchRecord,
  game: GameRecord,
  chart: ChartRecord,
  ownCall: OwnCallRecord,
  menuCall: MenuCallRecord,
} as const;
