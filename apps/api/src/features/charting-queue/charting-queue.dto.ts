import { ApiProperty, ApiPropertyOptional } from '@nestjs/swagger';
import { Type } from 'class-transformer';
import { IsInt, IsOptional, IsUUID, Max, Min } from 'class-validator';
import type { Side } from '#domain/tendencies/tendency-plays.js';
import { EXAMPLE_IDS } from '../../common/examples.js';
import { PlayerInEventQuery } from '../../common/player-in-event.query.js';
import { FilmScopeResponse } from '../../common/film-scope.dto.js';
import { IMPORTANCE } from '../../common/words-of-events.js';

export class ChartingQueueQuery extends PlayerInEventQuery {
  @ApiPropertyOptional({
    type: 'integer',
    minimum: 1,
    maximum: 1440,
    default: 15,
    description: 'that each charter has',
  })
  @IsOptional()
  @Type(() => Number)
  @IsInt()
  @Min(1)
  @Max(1440)
  minutes = 15;

  @ApiPropertyOptional({
    type: 'integer',
    minimum: 1,
    maximum: 20,
    default: 1,
    description: 'who chart at the same time',
  })
  @IsOptional()
  @Type(() => Number)
  @IsInt()
  @Min(1)
  @Max(20)
  charters = 1;

  @ApiPropertyOptional({
    type: 'integer',
    minimum: 5,
    maximum: 600,
    default: 45,
    description: 'your pace: seconds to chart a play with all fields; with the key fields alone it takes 55 % of it',
  })
  @IsOptional()
  @Type(() => Number)
  @IsInt()
  @Min(5)
  @Max(600)
  secondsAPlay = 45;

  @ApiPropertyOptional({
    format: 'uuid',
    example: EXAMPLE_IDS.game,
    description: 'only the film of this game, of somebody who may be met; all of theirs when left out',
  })
  @IsOptional()
  @IsUUID()
  gameId?: string;
}

export class QueuedOpponentResponse {
  @ApiProperty({ format: 'uuid', example: EXAMPLE_IDS.opponent }) playerId!: string;
  @ApiProperty({ example: 'Brass Heron' }) handle!: string;
  @ApiProperty({ minimum: 0, maximum: 1, example: 0.58, description: 'of meeting from here on' }) probability!: number;
}

export class SettledQuestionResponse {
  @ApiProperty({ example: 'Brass Heron, offense, 3rd and 7-10: concept, known on 6 snaps, about 4 more' })
  words!: string;
  @ApiProperty({ format: 'uuid', example: EXAMPLE_IDS.opponent }) playerId!: string;
  @ApiProperty({ enum: ['offense', 'defense'], example: 'offense' }) side!: Side;
  @ApiProperty({ example: '3rd and 7-10' }) situation!: string;
  @ApiProperty({ example: 'concept' }) dimension!: string;
  @ApiProperty({ type: 'integer', example: 6 }) known!: number;
  @ApiProperty({ example: 4.2, description: 'expected, by the situations of charted games' }) expectedPlays!: number;
}

export class QueueVideoResponse {
  @ApiProperty({ example: 'https://film.example/lantern-cup-1' }) url!: string;
  @ApiProperty({
    type: 'integer',
    nullable: true,
    example: 1284,
    description: 'where it begins, of this video; null: no chart in view says',
  })
  second!: number | null;
}

export class QueueSegmentResponse {
  @ApiProperty({ type: 'integer', example: 1, description: 'whose work it is, from 1' }) charter!: number;
  @ApiProperty({ example: 0, description: 'minutes of the same charter before it' }) startsAfterMinutes!: number;
  @ApiProperty({ example: 'third and fourth downs of Brass Heron with the ball: Brass Heron - Mossback' })
  words!: string;
  @ApiProperty({ format: 'uuid', example: EXAMPLE_IDS.game }) gameId!: string;
  @ApiProperty({ example: 'Brass Heron - Mossback, Lantern Cup, 2026-03-01' }) game!: string;
  @ApiProperty({ type: String, nullable: true, format: 'date', example: '2026-03-01' }) playedOn!: string | null;
  @ApiProperty({ enum: IMPORTANCE, example: 'elimination' }) importance!: string;
  @ApiProperty({ example: 'third and fourth downs' }) what!: string;
  @ApiProperty({
    type: FilmScopeResponse,
    description: 'the scope to give the chart, so that it counts for what it is',
  })
  filmScope!: FilmScopeResponse;
  @ApiProperty({ type: 'integer', example: 9, description: 'snaps expected' }) plays!: number;
  @ApiProperty({ example: 4.1 }) minutes!: number;
  @ApiProperty({ type: QueueVideoResponse, nullable: true }) video!: QueueVideoResponse | null;
  @ApiProperty({ minimum: 0, maximum: 1, example: 0.31, description: 'of all that the queue is expected to settle' })
  shareOfGain!: number;
  @ApiProperty({ type: [SettledQuestionResponse], description: 'the questions that gain most' })
  settles!: SettledQuestionResponse[];
}

export class ChartingQueueResponse {
  @ApiProperty({ format: 'uuid', example: EXAMPLE_IDS.event }) eventId!: string;
  @ApiProperty({ format: 'uuid', example: EXAMPLE_IDS.player }) playerId!: string;
  @ApiProperty({ example: 'Mossback' }) handle!: string;
  @ApiProperty({ type: 'integer', example: 15 }) minutes!: number;
  @ApiProperty({ type: 'integer', example: 1 }) charters!: number;
  @ApiProperty({ type: 'integer', example: 45 }) secondsAPlay!: number;
  @ApiProperty({ type: [QueuedOpponentResponse] }) opponents!: QueuedOpponentResponse[];
  @ApiProperty({
    type: Number,
    nullable: true,
    minimum: 0,
    maximum: 1,
    example: 0.93,
    description: 'of what is not known now, expected to be left after it; null where nothing is charted to measure by',
  })
  leftUnknown!: number | null;
  @ApiProperty({ type: [QueueSegmentResponse], description: 'in this order' }) segments!: QueueSegmentResponse[];
  @ApiProperty({ type: [String], description: 'what the queue cannot weigh, and why' }) notes!: string[];
}
