import { ApiProperty } from '@nestjs/swagger';
import { EXAMPLE_IDS } from './examples.js';
import { CountResponse, EstimateResponse, ExpectedPointsResponse } from './figures.dto.js';
import { PlayReferenceResponse } from './play-reference.dto.js';

export class TrendEventResponse {
  @ApiProperty({
    type: [String],
    format: 'uuid',
    description: 'events that began on this day',
    example: [EXAMPLE_IDS.event],
  })
  eventIds!: string[];
  @ApiProperty({ example: 'Spring Cup' }) name!: string;
  @ApiProperty({ nullable: true, type: String, example: '2026-03-01' }) startsOn!: string | null;
  @ApiProperty({ example: 20, description: 'charted games' }) games!: number;
}

export class UsageResponse extends CountResponse {
  @ApiProperty({ type: EstimateResponse, nullable: true, description: 'with its Wilson interval' })
  share!: EstimateResponse | null;
  @ApiProperty({ example: 7, description: 'players who used it' }) users!: number;
  @ApiProperty({ example: 20, description: 'players of whom anything is known' }) players!: number;
  @ApiProperty({ example: 26 }) successes!: number;
  @ApiProperty({ example: 43, description: 'plays with a result that counts' }) trials!: number;
  @ApiProperty({ type: EstimateResponse, nullable: true, description: 'of the side with the ball' })
  success!: EstimateResponse | null;
  @ApiProperty({ type: ExpectedPointsResponse, nullable: true }) expectedPointsAdded!: ExpectedPointsResponse | null;
  @ApiProperty({ type: [PlayReferenceResponse], description: 'its plays; given where it rises or falls' })
  plays!: PlayReferenceResponse[];
}
