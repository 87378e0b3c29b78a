import { ApiProperty, ApiPropertyOptional, IntersectionType, PickType } from '@nestjs/swagger';
import { IsBoolean, IsIn, IsOptional } from 'class-validator';
import { AsBoolean } from '../../common/as-boolean.js';
import { TrendEventResponse, UsageResponse } from '../../common/event-usage.dto.js';
import { EXAMPLE_IDS } from '../../common/examples.js';
import { CountResponse, IntervalResponse, ResultsResponse } from '../../common/figures.dto.js';
import { PaperQuery } from '../../common/paper-query.dto.js';
import { PlayReferenceResponse } from '../../common/play-reference.dto.js';
import { AnswerResponse, AnswersQuery, GameMetResponse, RefinementResponse } from './answers.dto.js';

const ASKED = [
  'confidence' as const,
  ...(['concept', 'callFamily', 'formation', 'front', 'coverage', 'pressure'] as const),
];

export class CallStudyQuery extends IntersectionType(PickType(AnswersQuery, ASKED), PaperQuery) {
  @ApiPropertyOptional({ enum: ['offense', 'defense'], default: 'offense', description: 'whose call it is' })
  @IsOptional()
  @IsIn(['offense', 'defense'])
  side: 'offense' | 'defense' = 'offense';

  @ApiPropertyOptional({
    type: Boolean,
    default: true,
    description: 'our own names for calls, and our coaching points; false for a page that is to leave the clan',
  })
  @IsOptional()
  @AsBoolean()
  @IsBoolean()
  ownBook = true;
}

export class StudiedCallResponse {
  @ApiProperty({ example: 'trips, counter read' }) label!: string;
  @ApiProperty({ example: 132 }) plays!: number;
  @ApiProperty({ example: 41 }) games!: number;
  @ApiProperty({ example: 17 }) players!: number;
}

export class StudiedEventResponse extends UsageResponse {
  @ApiProperty({ type: TrendEventResponse }) event!: TrendEventResponse;
}

export class StudiedUsageResponse {
  @ApiProperty({ example: 'counter read (concept) is rising: 10 of 1302, 65 of 1186; used by 3, 13 players' })
  words!: string;
  @ApiProperty({
    type: String,
    nullable: true,
    enum: ['rising', 'falling', 'steady', 'open', null],
    description: 'as the trends of all calls find it; null where it was not put to the test there',
  })
  verdict!: string | null;
  @ApiProperty({ type: [StudiedEventResponse], description: 'in the order of events' })
  byEvent!: StudiedEventResponse[];
}

export class GiveawayResponse {
  @ApiProperty({ example: 'motion jet: 22 of 33 plays with it were this call, 14 of 180 without; leaves 3 s' })
  words!: string;
  @ApiProperty({ type: CountResponse }) with!: CountResponse;
  @ApiProperty({ type: CountResponse }) without!: CountResponse;
  @ApiProperty({
    type: IntervalResponse,
    nullable: true,
    description: 'share with it less share without, in the same situations of the same players in the same games',
  })
  difference!: IntervalResponse | null;
  @ApiProperty({ example: 0.004, description: 'level of false discoveries at which it would just be one' })
  adjusted!: number;
  @ApiProperty({ type: Number, nullable: true, example: 3, description: 'before the snap, as a rule' })
  secondsLeft!: number | null;
  @ApiProperty({ type: [PlayReferenceResponse] }) plays!: PlayReferenceResponse[];
}

export class GiveawaysResponse {
  @ApiProperty({ example: '61 looks put to the test; of those found, 10 % may be chance' }) words!: string;
  @ApiProperty({ example: 61 }) tested!: number;
  @ApiProperty({ type: [GiveawayResponse] }) found!: GiveawayResponse[];
}

export class StudiedSituationResponse {
  @ApiProperty({ type: String, nullable: true, example: '3rd and 7-10', description: 'null for all snaps' })
  situation!: string | null;
  @ApiProperty({ example: 'success 28 of 65, 34-53 %, all calls 44 %' }) words!: string;
  @ApiProperty({ type: ResultsResponse, description: '"field" is all calls in that situation' })
  results!: ResultsResponse;
}

export class StudiedPlayResponse extends PlayReferenceResponse {
  @ApiProperty({ type: String, nullable: true, example: 'Brass Heron - Mossback, Spring Cup' }) game!: string | null;
  @ApiProperty({ example: '7:05', description: 'where it is in the video' }) at!: string;
  @ApiProperty({ type: String, nullable: true, format: 'uri', example: 'https://video.example/g4#t=425' })
  address!: string | null;
  @ApiProperty({ example: 'no success against three down tight, cover 3 sky' }) reason!: string;
}

export class StudiedPointResponse {
  @ApiProperty({ format: 'uuid', example: EXAMPLE_IDS.match }) id!: string;
  @ApiProperty({ enum: ['call', 'answer', 'opponent', 'play'] }) about!: string;
  @ApiProperty({ example: 'The guard pulls early: the end may sit on it.' }) text!: string;
  @ApiProperty({ example: 2, description: 'raised with every change' }) revision!: number;
  @ApiProperty({ example: 'Marlow', description: 'a member, or "former member"' }) writtenBy!: string;
  @ApiProperty({ format: 'date-time', example: '2026-03-01T18:00:00Z' }) writtenAt!: string;
}

export class CallStudyResponse {
  @ApiProperty({ enum: ['offense', 'defense'] }) side!: string;
  @ApiProperty({ example: 0.9, description: 'of every interval' }) confidence!: number;
  @ApiProperty({ example: '132 plays of 41 games, by 17 players' }) restsOn!: string;
  @ApiProperty({ type: StudiedCallResponse }) call!: StudiedCallResponse;
  @ApiProperty({ type: StudiedUsageResponse }) usage!: StudiedUsageResponse;
  @ApiProperty({ type: GiveawaysResponse }) giveaways!: GiveawaysResponse;
  @ApiProperty({ type: [StudiedSituationResponse], description: 'all snaps first' })
  situations!: StudiedSituationResponse[];
  @ApiProperty({
    type: [GameMetResponse],
    description: 'games that held it first; for a call of the defense those that beat it',
  })
  games!: GameMetResponse[];
  @ApiProperty({ type: [AnswerResponse], description: 'from the huddle, whatever the formation' })
  answers!: AnswerResponse[];
  @ApiProperty({ type: [RefinementResponse], description: 'moved at the line, or done by hand' })
  moves!: RefinementResponse[];
  @ApiProperty({ type: [StudiedPlayResponse], description: 'in the order in which to watch it' })
  film!: StudiedPlayResponse[];
  @ApiProperty({ type: [StudiedPointResponse], description: 'what the clan keeps on it, the newest first' })
  coachingPoints!: StudiedPointResponse[];
}
