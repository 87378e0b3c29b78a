import { ApiProperty, ApiPropertyOptional } from '@nestjs/swagger';
import { IsIn, IsOptional, IsString, Length } from 'class-validator';
import { TendencyQuery } from '../tendencies/tendency-query.dto.js';

export class ProfileQuery extends TendencyQuery {
  @ApiPropertyOptional({ description: 'only this situation, as the profile names it', example: '3rd and 7-10' })
  @IsOptional()
  @IsString()
  @Length(1, 60)
  situation?: string;

  @ApiPropertyOptional({ enum: ['none', 'plays'], description: 'plays lists the plays behind every share' })
  @IsOptional()
  @IsIn(['none', 'plays'])
  evidence: 'none' | 'plays' = 'none';
}

export class IntervalResponse {
  @ApiProperty({ minimum: 0, maximum: 1 }) lower!: number;
  @ApiProperty({ minimum: 0, maximum: 1 }) upper!: number;
}

export class EstimateResponse {
  @ApiProperty({ minimum: 0, maximum: 1 }) share!: number;
  @ApiProperty({ type: IntervalResponse }) interval!: IntervalResponse;
}

export class FieldShareResponse {
  @ApiProperty({ minimum: 0, maximum: 1 }) share!: number;
  @ApiProperty() count!: number;
  @ApiProperty({ description: "plays of the field on which it was known, the player's own left out" }) known!: number;
}

export class YardsResponse {
  @ApiProperty() plays!: number;
  @ApiProperty() mean!: number;
}

export class ExplosiveResponse {
  @ApiProperty() plays!: number;
  @ApiProperty() count!: number;
  @ApiProperty() share!: number;
}

export class ResultsResponse {
  @ApiProperty() trials!: number;
  @ApiProperty() successes!: number;
  @ApiProperty({ type: EstimateResponse, nullable: true }) success!: EstimateResponse | null;
  @ApiProperty({ type: FieldShareResponse, nullable: true }) fieldSuccess!: FieldShareResponse | null;
  @ApiProperty({ type: YardsResponse, nullable: true }) yards!: YardsResponse | null;
  @ApiProperty({ type: ExplosiveResponse, nullable: true }) explosive!: ExplosiveResponse | null;
}

export class PlayReferenceResponse {
  @ApiProperty({ format: 'uuid' }) chartId!: string;
  @ApiProperty() playNumber!: number;
}

export class ValueShareResponse {
  @ApiProperty({ example: 'pass', description: 'what was done, in the words of the vocabulary' }) label!: string;
  @ApiProperty({ nullable: true, type: Number, description: 'term, where it is one' }) termId!: number | null;
  @ApiProperty({ example: 9 }) count!: number;
  @ApiProperty({ type: EstimateResponse, description: 'of the plays on which it was known; Wilson interval' })
  raw!: EstimateResponse;
  @ApiProperty({
    type: EstimateResponse,
    nullable: true,
    description: "drawn towards the field's share; posterior interval",
  })
  shrunk!: EstimateResponse | null;
  @ApiProperty({ type: FieldShareResponse, nullable: true }) field!: FieldShareResponse | null;
  @ApiProperty({ description: "the field's share lies outside the raw interval: look at the plays" })
  conflict!: boolean;
  @ApiProperty({ type: ResultsResponse, nullable: true, description: 'null on fewer than five plays with a result' })
  results!: ResultsResponse | null;
  @ApiPropertyOptional({ type: [PlayReferenceResponse] }) plays?: PlayReferenceResponse[];
}

export class VisibilityResponse {
  @ApiProperty() knownOnSuccesses!: number;
  @ApiProperty() successes!: number;
  @ApiProperty() knownOnFailures!: number;
  @ApiProperty() failures!: number;
  @ApiProperty({ type: IntervalResponse, description: 'known share on successes less that on failures, 99 % interval' })
  difference!: IntervalResponse;
}

export class DimensionResponse {
  @ApiProperty({ example: 'callFamily' }) dimension!: string;
  @ApiProperty({ example: 'call family' }) label!: string;
  @ApiProperty({ description: 'plays on which it was known' }) known!: number;
  @ApiProperty({ type: [ValueShareResponse] }) values!: ValueShareResponse[];
  @ApiProperty({
    type: VisibilityResponse,
    nullable: true,
    description: 'knowing it goes with the result: shares may mislead',
  })
  visibility!: VisibilityResponse | null;
}

export class SituationResponse {
  @ApiProperty({ example: '3rd and 7-10' }) situation!: string;
  @ApiProperty() snaps!: number;
  @ApiProperty() games!: number;
  @ApiProperty({ type: ResultsResponse }) results!: ResultsResponse;
  @ApiProperty({ type: [DimensionResponse] }) dimensions!: DimensionResponse[];
}

export class ProfileResponse {
  @ApiProperty({ format: 'uuid' }) playerId!: string;
  @ApiProperty() handle!: string;
  @ApiProperty({ enum: ['offense', 'defense'] }) side!: string;
  @ApiProperty({ description: 'of every interval' }) confidence!: number;
  @ApiProperty({ description: 'plays that count, over all games' }) snaps!: number;
  @ApiProperty() games!: number;
  @ApiProperty({ nullable: true, type: String, description: 'date of the newest game' }) newestGame!: string | null;
  @ApiProperty({ type: [SituationResponse] }) situations!: SituationResponse[];
}
