import { ApiProperty, ApiPropertyOptional } from '@nestjs/swagger';
import { FORECAST_TARGETS, type ForecastTarget } from '#domain/forecast/targets.js';
import { EXAMPLE_IDS } from '../../common/examples.js';
import { PlayReferenceResponse } from '../../common/play-reference.dto.js';

export const MOST_PLAYS = 250;
export const MOST_CALLS = 10;

/** What may be asked; `readQuestion` checks it. */
export class NextCallInput {
  @ApiPropertyOptional({ enum: FORECAST_TARGETS, default: 'call-family', example: 'call-family' })
  target?: ForecastTarget;

  @ApiProperty({
    type: Object,
    additionalProperties: true,
    example: { down: 3, distance: 7, yardsToGoal: 48, motion: 'short out' },
    description: 'the snap to come: any fields of a play that are known before the target, by the names of the import',
  })
  snap!: Record<string, unknown>;

  @ApiPropertyOptional({
    type: [Object],
    example: [{ down: 1, distance: 10, callFamily: 'run' }],
    description: "the player's own earlier snaps of the game in progress, in their order; nothing of it is kept",
  })
  gameSoFar?: Record<string, unknown>[];

  @ApiPropertyOptional({ minimum: 1, maximum: MOST_CALLS, default: 3, example: 3, description: 'how many calls' })
  top?: number;
}

export class NextCallReasonResponse {
  @ApiProperty({ example: 'Mossback on 3rd and 7-10, motion short out: 5 of 7' }) words!: string;
  @ApiProperty({
    enum: ['field', 'player', 'together', 'today'],
    description:
      'whose plays; together: what a model of all calls makes of everything that is known, in place of the steps before',
  })
  of!: string;
  @ApiProperty({ example: 5 }) count!: number;
  @ApiProperty({ example: 7, description: 'plays with the target charted' }) known!: number;
  @ApiProperty({ example: 3 }) games!: number;
  @ApiProperty({ example: 0.61, description: 'probability once this is taken in' }) probability!: number;
}

export class LikelyCallResponse {
  @ApiProperty({ example: 'dropback pass' }) call!: string;
  @ApiProperty({ example: 0.61 }) probability!: number;
  @ApiProperty({ example: 0.44, description: 'share of all of the field’s calls' }) fieldShare!: number;
  @ApiProperty({ type: [NextCallReasonResponse], description: 'from everybody to this player on this look' })
  reasons!: NextCallReasonResponse[];
}

export class NextCallResponse {
  @ApiProperty({ format: 'uuid', example: EXAMPLE_IDS.player }) playerId!: string;
  @ApiProperty({ example: 'Mossback' }) handle!: string;
  @ApiProperty({ enum: ['offense', 'defense'] }) side!: string;
  @ApiProperty({ enum: FORECAST_TARGETS }) target!: string;
  @ApiProperty({
    enum: ['counts', 'model'],
    example: 'model',
    description:
      'counts: by the counted steps alone, as long as no model of the archive as it stands is fitted, or it is too thin for one',
  })
  answeredBy!: string;
  @ApiProperty({ example: '3rd and 7-10: dropback pass 61 % (5 of 7), screen 14 % (1 of 7)' }) words!: string;
  @ApiProperty({ type: [LikelyCallResponse] }) calls!: LikelyCallResponse[];
  @ApiProperty({
    example: 'Mossback on 3rd and 7-10, motion short out',
    description: 'the narrowest plays of the player that there are; of the field where there are none',
  })
  restsOn!: string;
  @ApiProperty({ example: 7, description: 'plays with the target charted in `restsOn`' }) known!: number;
  @ApiProperty({ example: 3 }) games!: number;
  @ApiProperty({ type: String, nullable: true, example: null, description: 'said where so little is known' })
  warning!: string | null;
  @ApiProperty({ type: [PlayReferenceResponse], description: 'the plays of `restsOn`, the newest games first' })
  plays!: PlayReferenceResponse[];
  @ApiProperty({ example: 'The event’s own rules decide whether aids may be used during play.' }) caution!: string;
}
