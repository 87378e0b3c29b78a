import { ApiProperty, ApiPropertyOptional } from '@nestjs/swagger';
import { Transform } from 'class-transformer';
import { IsNumber, IsOptional, IsUUID, Max, Min } from 'class-validator';

export class AgreementQuery {
  @ApiProperty({ format: 'uuid', description: 'a chart of the game' }) @IsUUID() first!: string;
  @ApiProperty({ format: 'uuid', description: 'another chart of the game' }) @IsUUID() second!: string;

  @ApiPropertyOptional({ minimum: 0.5, maximum: 0.999, default: 0.9, description: 'of the intervals' })
  @IsOptional()
  @Transform(({ value }) => Number(value))
  @IsNumber()
  @Min(0.5)
  @Max(0.999)
  confidence = 0.9;
}

export class IntervalResponse {
  @ApiProperty({ example: 0.41 }) lower!: number;
  @ApiProperty({ example: 0.93 }) upper!: number;
}

export class FieldAgreementResponse {
  @ApiProperty({ example: 'coverage' }) field!: string;
  @ApiProperty({ description: 'plays on which both charts say something', example: 41 }) plays!: number;
  @ApiProperty({ description: 'of these, how many on which they say the same', example: 33 }) same!: number;
  @ApiProperty({ nullable: true, type: Number, description: "Cohen's kappa; of numbers weighted by distance" })
  kappa!: number | null;
  @ApiProperty({ nullable: true, type: IntervalResponse }) interval!: IntervalResponse | null;
  @ApiProperty({ nullable: true, type: String, enum: ['one value', 'too many values'], description: 'why no kappa' })
  noKappa!: string | null;
}

export class FieldDifferenceResponse {
  @ApiProperty({ example: 'coverage' }) field!: string;
  @ApiProperty({ description: 'number, word or list of words', example: 'cover 3' }) first!: unknown;
  @ApiProperty({ example: 'quarters' }) second!: unknown;
}

export class DifferingPlayResponse {
  @ApiProperty({ example: 12 }) order!: number;
  @ApiProperty({ description: 'number in the first chart' }) firstPlayNumber!: number;
  @ApiProperty({ description: 'number in the second chart' }) secondPlayNumber!: number;
  @ApiProperty({ type: [FieldDifferenceResponse] }) fields!: readonly FieldDifferenceResponse[];
}

export class AgreementResponse {
  @ApiProperty({ format: 'uuid' }) gameId!: string;
  @ApiProperty({ format: 'uuid' }) first!: string;
  @ApiProperty({ format: 'uuid' }) second!: string;
  @ApiProperty() confidence!: number;
  @ApiProperty({ description: 'snaps that both charts have' }) plays!: number;
  @ApiProperty({ type: [Number], description: 'plays that the second chart covers and has not' })
  onlyInFirst!: readonly number[];
  @ApiProperty({ type: [Number], description: 'plays that the first chart covers and has not' })
  onlyInSecond!: readonly number[];
  @ApiProperty({ type: [FieldAgreementResponse] }) fields!: readonly FieldAgreementResponse[];
  @ApiProperty({ type: [DifferingPlayResponse] }) differing!: readonly DifferingPlayResponse[];
}

export class ReconciledChartResponse {
  @ApiProperty({ format: 'uuid' }) chartId!: string;
  @ApiProperty({ example: 'main' }) reference!: string;
  @ApiProperty({ nullable: true, type: String }) chartedBy!: string | null;
  @ApiProperty({ nullable: true, type: String, format: 'date-time' }) chartedAt!: string | null;
  @ApiProperty() revision!: number;
  @ApiProperty({ type: Object }) filmScope!: object;
  @ApiProperty({ description: 'snaps that it has a record of, inside its scope' }) plays!: number;
  @ApiProperty({ description: 'values of it that count' }) values!: number;
}

export class PlaySourceResponse {
  @ApiProperty({ format: 'uuid' }) chartId!: string;
  @ApiProperty({ description: 'number of the play in that chart' }) playNumber!: number;
  @ApiProperty({ type: [String], description: 'fields that count as this chart says', example: ['down', 'coverage'] })
  fields!: readonly string[];
}

export class ReconciledPlayResponse {
  @ApiProperty({ description: 'number in the chart that counts' }) playNumber!: number;
  @ApiProperty() order!: number;
  @ApiProperty({ type: [PlaySourceResponse], description: 'by rising weight' }) sources!: readonly PlaySourceResponse[];
  @ApiProperty({ type: [String], description: 'fields on which the charts differ' }) disputed!: readonly string[];
}

export class ReconciledContradiction {
  @ApiProperty() playNumber!: number;
  @ApiProperty({ example: 'distance' }) field!: string;
  @ApiProperty() found!: string;
  @ApiProperty() expected!: string;
}

export class ReconciliationResponse {
  @ApiProperty({ format: 'uuid' }) gameId!: string;
  @ApiProperty({ format: 'uuid', nullable: true, type: String, description: 'the chart that counts; null without any' })
  chartId!: string | null;
  @ApiProperty({ type: Object, nullable: true }) filmScope!: object | null;
  @ApiProperty({ type: [ReconciledChartResponse], description: 'by rising weight: the widest first, the newest last' })
  charts!: readonly ReconciledChartResponse[];
  @ApiProperty({ description: 'values on which charts differ' }) disputed!: number;
  @ApiProperty({ type: [ReconciledContradiction], description: 'plays that contradict themselves once put together' })
  contradictions!: readonly ReconciledContradiction[];
  @ApiProperty({ type: [ReconciledPlayResponse] }) plays!: readonly ReconciledPlayResponse[];
}
