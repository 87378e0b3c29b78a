import { ApiProperty, ApiPropertyOptional, IntersectionType } from '@nestjs/swagger';
import { Type } from 'class-transformer';
import { IsInt, IsOptional, Max, Min } from 'class-validator';
import { EXAMPLE_IDS } from '../../common/examples.js';
import { LeanQuery } from '../../common/lean.query.js';
import { PlayerInEventQuery } from '../../common/player-in-event.query.js';

export class NextOpponentsQuery extends IntersectionType(PlayerInEventQuery, LeanQuery) {
  @ApiPropertyOptional({ type: 'integer', minimum: 1, maximum: 1440, default: 20, description: 'until the match' })
  @IsOptional()
  @Type(() => Number)
  @IsInt()
  @Min(1)
  @Max(1440)
  minutes = 20;
}

export class BriefClipResponse {
  @ApiProperty({ format: 'uuid', example: EXAMPLE_IDS.game }) gameId!: string;
  @ApiProperty({ format: 'uuid', example: EXAMPLE_IDS.chart }) chartId!: string;
  @ApiProperty({ type: 'integer', example: 41 }) playNumber!: number;
  @ApiProperty({ type: 'integer', example: 1284, description: 'of the video, else of the charted film' })
  second!: number;
  @ApiProperty({ type: String, nullable: true, example: 'https://film.example/lantern-cup-1#t=1284' })
  url!: string | null;
  @ApiProperty({ example: 'draw on 3rd and 7-10' }) reason!: string;
}

export class BriefedOpponentResponse {
  @ApiProperty({ format: 'uuid', example: EXAMPLE_IDS.opponent }) playerId!: string;
  @ApiProperty({ example: 'Brass Heron' }) handle!: string;
  @ApiProperty({ minimum: 0, maximum: 1, example: 0.6, description: 'of being the opponent of the next match' })
  probability!: number;
  @ApiProperty({ type: Number, nullable: true, example: null, description: 'null: exact' })
  standardError!: number | null;
  @ApiProperty({ minimum: 0, maximum: 1, example: 0.6, description: 'of the time to prepare' }) share!: number;
  @ApiProperty({ type: [String], description: 'at most five, with counts' }) facts!: string[];
  @ApiProperty({ type: [BriefClipResponse], description: 'at most ten over all opponents' })
  clips!: BriefClipResponse[];
  @ApiProperty({
    type: [String],
    example: ['with the ball, have a call ready against cover 3 (coverage played): offenses succeeded on 7 of 9'],
    description: 'where they were weak, at most three; not held against your menu',
  })
  openings!: string[];
  @ApiProperty({
    type: [String],
    example: ['offense, hardly seen: goal to go (3 snaps)'],
    description: 'what the charts leave open',
  })
  notKnown!: string[];
}

export class SheetChangeResponse {
  @ApiProperty({ format: 'uuid', example: EXAMPLE_IDS.opponent }) against!: string;
  @ApiProperty({
    example:
      'our defense on 2nd and 7 or more: Pocketknife 5 of 8, Narrow Door 3 of 8 in place of Matchbox, Pocketknife; +0.02 points a play if they stay; they: inside zone 9 of 51',
  })
  words!: string;
}

export class ForkStepResponse {
  @ApiProperty({ example: 0 }) fromMinute!: number;
  @ApiProperty({ example: 2 }) minutes!: number;
  @ApiProperty({ example: 'read the facts on Brass Heron' }) words!: string;
}

export class NextOpponentsResponse {
  @ApiProperty({ format: 'uuid', example: EXAMPLE_IDS.event }) eventId!: string;
  @ApiProperty({ format: 'uuid', example: EXAMPLE_IDS.player }) playerId!: string;
  @ApiProperty({ example: 'semifinal' }) round!: string;
  @ApiProperty({ example: false, description: 'the bracket says who' }) certain!: boolean;
  @ApiProperty({ type: 'integer', example: 20 }) minutes!: number;
  @ApiProperty({ type: [BriefedOpponentResponse], description: 'at most three, the most probable first' })
  opponents!: BriefedOpponentResponse[];
  @ApiProperty({ minimum: 0, maximum: 1, example: 0.05, description: 'that it is none of them' }) others!: number;
  @ApiProperty({
    type: [SheetChangeResponse],
    description:
      "at most three, as the call sheet against each of them marks them: your menu's calls for them in place of those for " +
      'the field; none where none is worth it',
  })
  changes!: SheetChangeResponse[];
  @ApiProperty({ type: [ForkStepResponse], description: 'what to do with the minutes' }) plan!: ForkStepResponse[];
}
