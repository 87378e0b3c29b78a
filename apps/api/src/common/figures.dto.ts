import { ApiProperty } from '@nestjs/swagger';

// How counts and shares are told, the same in every answer about tendencies.

export class IntervalResponse {
  @ApiProperty({ example: 0.56 }) lower!: number;
  @ApiProperty({ example: 0.89 }) upper!: number;
}

export class EstimateResponse {
  @ApiProperty({ minimum: 0, maximum: 1, example: 0.75 }) share!: number;
  @ApiProperty({ type: IntervalResponse }) interval!: IntervalResponse;
}

export class FieldShareResponse {
  @ApiProperty({ minimum: 0, maximum: 1, example: 0.81 }) share!: number;
  @ApiProperty({ example: 340 }) count!: number;
  @ApiProperty({
    example: 420,
    description: "plays of the field on which it was known, the player's own left out",
  })
  known!: number;
}

export class CountResponse {
  @ApiProperty({ example: 14 }) count!: number;
  @ApiProperty({ example: 180, description: 'plays on which it was known' }) known!: number;
}

export class CountedShareResponse extends CountResponse {
  @ApiProperty({
    type: EstimateResponse,
    nullable: true,
    description: 'count of known with its Wilson interval; null where nothing is known, which is not a share of 0',
  })
  raw!: EstimateResponse | null;
  @ApiProperty({ type: FieldShareResponse, nullable: true }) field!: FieldShareResponse | null;
}

export class ValueResponse {
  @ApiProperty({ example: 'pass', description: 'in the words of the vocabulary' }) label!: string;
  @ApiProperty({ nullable: true, type: Number, example: null, description: 'term, where it is one' })
  termId!: number | null;
}

export class YardsResponse {
  @ApiProperty({ example: 44 }) plays!: number;
  @ApiProperty({ example: 5.2 }) mean!: number;
}

export class ExplosiveResponse {
  @ApiProperty({ example: 44 }) plays!: number;
  @ApiProperty({ example: 5 }) count!: number;
  @ApiProperty({ example: 0.1136 }) share!: number;
}

export class ExpectedPointsResponse {
  @ApiProperty({ example: 44, description: 'plays of which it is known what followed' }) plays!: number;
  @ApiProperty({ example: 0.21, description: 'points a play, seen from the side with the ball' }) mean!: number;
  @ApiProperty({
    type: IntervalResponse,
    nullable: true,
    description: 'of the mean, games as clusters; null below two plays',
  })
  interval!: IntervalResponse | null;
}

export class ResultsResponse {
  @ApiProperty({ example: 44 }) trials!: number;
  @ApiProperty({ example: 21 }) successes!: number;
  @ApiProperty({ type: EstimateResponse, nullable: true }) success!: EstimateResponse | null;
  @ApiProperty({ type: FieldShareResponse, nullable: true }) fieldSuccess!: FieldShareResponse | null;
  @ApiProperty({ type: YardsResponse, nullable: true }) yards!: YardsResponse | null;
  @ApiProperty({ type: ExplosiveResponse, nullable: true }) explosive!: ExplosiveResponse | null;
  @ApiProperty({
    type: ExpectedPointsResponse,
    nullable: true,
    description: 'null where no play of them is known to have led anywhere',
  })
  expectedPointsAdded!: ExpectedPointsResponse | null;
}
