import { ApiProperty, ApiPropertyOptional } from '@nestjs/swagger';
import { IsIn, IsOptional, IsString, Length } from 'class-validator';
import {
  CountResponse,
  EstimateResponse,
  FieldShareResponse,
  IntervalResponse,
  ResultsResponse,
  ValueResponse,
} from '../../common/figures.dto.js';
import { PlayReferenceResponse } from '../../common/play-reference.dto.js';
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

  @ApiPropertyOptional({
    enum: ['field', 'earlier'],
    description:
      "earlier takes the newer half of the games and sets the player's own older half beside every share, with the field",
  })
  @IsOptional()
  @IsIn(['field', 'earlier'])
  against: 'field' | 'earlier' = 'field';

  @ApiPropertyOptional({
    enum: ['named', 'shares'],
    description: 'shares tells what was done once in a situation like everything else, with its intervals',
  })
  @IsOptional()
  @IsIn(['named', 'shares'])
  oneOffs: 'named' | 'shares' = 'named';

  @ApiPropertyOptional({
    enum: ['scout', 'self'],
    description: 'adds a plain sentence to every share; self says it to the player, as what an opponent would learn',
  })
  @IsOptional()
  @IsIn(['scout', 'self'])
  voice?: 'scout' | 'self';
}

export class EarlierShareResponse extends CountResponse {
  @ApiProperty({
    type: IntervalResponse,
    nullable: true,
    description: 'share now less share then; null where either is not known',
  })
  difference!: IntervalResponse | null;
}

export class ValueShareResponse {
  @ApiProperty({ example: 'pass', description: 'what was done, in the words of the vocabulary' }) label!: string;
  @ApiProperty({ nullable: true, type: Number, example: null, description: 'term, where it is one' })
  termId!: number | null;
  @ApiProperty({ example: 9 }) count!: number;
  @ApiProperty({ type: EstimateResponse, description: 'of the plays on which it was known; Wilson interval' })
  raw!: EstimateResponse;
  @ApiProperty({
    type: EstimateResponse,
    nullable: true,
    description: "drawn towards the field's share; an interval that holds near the field and far off it",
  })
  shrunk!: EstimateResponse | null;
  @ApiProperty({ type: FieldShareResponse, nullable: true }) field!: FieldShareResponse | null;
  @ApiProperty({ description: "the field's share lies outside the raw interval: look at the plays" })
  conflict!: boolean;
  @ApiProperty({
    type: ResultsResponse,
    nullable: true,
    description:
      'of all snaps, or of the one situation asked for; null elsewhere, and on fewer than five plays with a result',
  })
  results!: ResultsResponse | null;
  @ApiPropertyOptional({ type: EarlierShareResponse, description: 'where against is earlier' })
  earlier?: EarlierShareResponse;
  @ApiPropertyOptional({
    example: '3rd and 7-10: pass 9 of 12, 51-90 %, field 81 %; known on 12 of 15',
    description: 'where a voice was asked for',
  })
  words?: string;
  @ApiPropertyOptional({ type: [PlayReferenceResponse] }) plays?: PlayReferenceResponse[];
}

export class VisibilityWarningResponse {
  @ApiProperty() knownOnSuccesses!: number;
  @ApiProperty() successes!: number;
  @ApiProperty() knownOnFailures!: number;
  @ApiProperty() failures!: number;
  @ApiProperty({ type: IntervalResponse, description: 'known share on successes less that on failures, 99 % interval' })
  difference!: IntervalResponse;
}

export class DroppedValueResponse extends ValueResponse {
  @ApiProperty({ type: CountResponse }) earlier!: CountResponse;
}

export class DimensionResponse {
  @ApiProperty({ example: 'callFamily' }) dimension!: string;
  @ApiProperty({ example: 'call family' }) label!: string;
  @ApiProperty({ example: 12, description: 'plays on which it was known' }) known!: number;
  @ApiProperty({
    type: [ValueShareResponse],
    description: 'what was done, the most frequent first, then what the field does often and the player never did',
  })
  values!: ValueShareResponse[];
  @ApiProperty({
    type: [ValueResponse],
    description:
      'done once, and not one time in ten by the field or known on fewer than ten plays: only named, but for all ' +
      'snaps, where one situation is asked for, and where their shares, plays, words, the earlier half or recency ' +
      'weights are',
  })
  oneOffs!: ValueResponse[];
  @ApiPropertyOptional({
    type: [DroppedValueResponse],
    description: 'where against is earlier: what was done then and not once since',
  })
  dropped?: DroppedValueResponse[];
  @ApiProperty({
    type: VisibilityWarningResponse,
    nullable: true,
    description: 'knowing it goes with the result: shares may mislead',
  })
  visibility!: VisibilityWarningResponse | null;
}

export class SituationResponse {
  @ApiProperty({ example: '3rd and 7-10' }) situation!: string;
  @ApiProperty({ example: 15 }) snaps!: number;
  @ApiProperty({ example: 4 }) games!: number;
  @ApiProperty({ type: ResultsResponse }) results!: ResultsResponse;
  @ApiProperty({ type: [DimensionResponse] }) dimensions!: DimensionResponse[];
}

export class EarlierHalfResponse {
  @ApiProperty({ example: 4 }) games!: number;
  @ApiProperty({ example: 130 }) snaps!: number;
  @ApiProperty({ nullable: true, type: String, example: '2026-02-01', description: 'date of its newest game' })
  newestGame!: string | null;
}

export class ProfileResponse {
  @ApiProperty({ format: 'uuid' }) playerId!: string;
  @ApiProperty({ example: 'Mossback' }) handle!: string;
  @ApiProperty({ enum: ['offense', 'defense'] }) side!: string;
  @ApiProperty({ example: 0.9, description: 'of every interval' }) confidence!: number;
  @ApiProperty({ example: 140, description: 'plays that count, over all games' }) snaps!: number;
  @ApiProperty({ example: 4 }) games!: number;
  @ApiProperty({ nullable: true, type: String, example: '2026-03-01', description: 'date of the newest game' })
  newestGame!: string | null;
  @ApiProperty({ example: 12400, description: 'plays of the archive that the expected points were fitted on' })
  expectedPointsPlays!: number;
  @ApiPropertyOptional({ type: EarlierHalfResponse, description: 'where against is earlier' })
  earlier?: EarlierHalfResponse;
  @ApiProperty({ type: [SituationResponse] }) situations!: SituationResponse[];
}
