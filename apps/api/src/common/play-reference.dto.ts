import { ApiProperty } from '@nestjs/swagger';
import { UNKNOWN_NUMBER, type PlayColumns } from '#domain/charting/play-columns.js';
import type { Evidence } from '#domain/tendencies/evidence.js';
import { EXAMPLE_IDS } from './examples.js';
import type { Plain } from './plain.js';

/** A play that a figure was computed from, and where it is on film. */
export class PlayReferenceResponse {
  @ApiProperty({ format: 'uuid', example: EXAMPLE_IDS.chart }) chartId!: string;
  @ApiProperty({ format: 'uuid', example: EXAMPLE_IDS.game }) gameId!: string;
  @ApiProperty({ example: 41 }) playNumber!: number;
  @ApiProperty({
    type: Number,
    nullable: true,
    example: 1284,
    description: 'second of the video at which the ball is snapped; null where it was not charted',
  })
  second!: number | null;
}

/**
 * The plays behind a figure.
 *
 * @param plays - the batch that it was computed from
 * @param limit - at most this many; all when left out
 */
export function playReferences(evidence: Evidence, plays: PlayColumns, limit?: number): PlayReferenceResponse[] {
  return evidence.places(limit).map((place) => playReference(plays, place));
}

/** The play at a place of a batch. */
export function playReference(plays: PlayColumns, place: number): Plain<PlayReferenceResponse> {
  const chart = plays.charts[plays.chartIndex[place] ?? -1];
  const second = plays.number('snapSecond').values[place] ?? UNKNOWN_NUMBER;
  return {
    chartId: chart?.chartId ?? '',
    gameId: chart?.gameId ?? '',
    playNumber: plays.playNumber[place] ?? -1,
    second: second === UNKNOWN_NUMBER ? null : second,
  };
}
