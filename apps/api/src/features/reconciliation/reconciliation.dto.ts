import { ApiProperty, type ApiPropertyOptions } from '@nestjs/swagger';
import { IsUUID } from 'class-validator';
import { WHOLE_FILM } from '#domain/charting/film-scope.js';
import { EXAMPLE_IDS } from '../../common/examples.js';
import { IntervalResponse } from '../../common/figures.dto.js';
import { RealNumber } from '../../common/query-number.js';

const OTHER_CHART = '01890a5d-ac96-774b-bcce-b302099a8062';

/** A number, a word or a list of words, whichever the field holds. */
const ANY_VALUE: ApiPropertyOptions = {
  oneOf: [{ type: 'number' }, { type: 'string' }, { type: 'array', items: { type: 'string' } }],
  description: 'number, word or list of words',
};

export class AgreementQuery {
  @ApiProperty({ format: 'uuid', example: EXAMPLE_IDS.chart, description: 'a chart of the game' })
  @IsUUID()
  first!: string;
  @ApiProperty({ format: 'uuid', example: OTHER_CHART, description: 'another chart of the game' })
  @IsUUID()
  second!: string;

  @RealNumber({
    minimum: 0.5,
    maximum: 0.999,
    default: 0.9,
    example: 0.9,
    description: 'of the intervals',
  })
  confidence = 0.9;
}

export class FieldAgreementResponse {
  @ApiProperty({ example: 'coverage' }) field!: string;
  @ApiProperty({ description: 'plays on which both charts say something', example: 41 }) plays!: number;
  @ApiProperty({ description: 'of these, how many on which they say the same', example: 33 }) same!: number;
  @ApiProperty({
    nullable: true,
    type: Number,
    example: 0.72,
    description: "Cohen's kappa; of numbers weighted by distance",
  })
  kappa!: number | null;
  @ApiProperty({ nullable: true, type: IntervalResponse, example: { lower: 0.41, upper: 0.93 } })
  interval!: IntervalResponse | null;
  @ApiProperty({
    nullable: true,
    type: String,
    enum: ['one value', 'too many values', null],
    example: null,
    description: 'why no kappa',
  })
  noKappa!: string | null;
}

export class FieldDifferenceResponse {
  @ApiProperty({ example: 'coverage' }) field!: string;
  @ApiProperty({ ...ANY_VALUE, example: 'cover 3' }) first!: unknown;
  @ApiProperty({ ...ANY_VALUE, example: 'quarters' }) second!: unknown;
}

export class DifferingPlayResponse {
  @ApiProperty({ example: 12 }) order!: number;
  @ApiProperty({ example: 12, description: 'number in the first chart' }) firstPlayNumber!: number;
  @ApiProperty({ example: 11, description: 'number in the second chart' }) secondPlayNumber!: number;
  @ApiProperty({ type: [FieldDifferenceResponse] }) fields!: readonly FieldDifferenceResponse[];
}

export class AgreementResponse {
  @ApiProperty({ format: 'uuid', example: EXAMPLE_IDS.game }) gameId!: string;
  @ApiProperty({ format: 'uuid', example: EXAMPLE_IDS.chart }) first!: string;
  @ApiProperty({ format: 'uuid', example: OTHER_CHART }) second!: string;
  @ApiProperty({ example: 0.9 }) confidence!: number;
  @ApiProperty({ example: 88, description: 'snaps that both charts have' }) plays!: number;
  @ApiProperty({ type: [Number], example: [92], description: 'plays that the second chart covers and has not' })
  onlyInFirst!: readonly number[];
  @ApiProperty({ type: [Number], example: [], description: 'plays that the first chart covers and has not' })
  onlyInSecond!: readonly number[];
  @ApiProperty({ type: [FieldAgreementResponse] }) fields!: readonly FieldAgreementResponse[];
  @ApiProperty({ type: [DifferingPlayResponse] }) differing!: readonly DifferingPlayResponse[];
}

export class ReconciledChartResponse {
  @ApiProperty({ format: 'uuid', example: EXAMPLE_IDS.chart }) chartId!: string;
  @ApiProperty({ example: 'main' }) reference!: string;
  @ApiProperty({ nullable: true, type: String, example: 'Wren' }) chartedBy!: string | null;
  @ApiProperty({ nullable: true, type: String, format: 'date-time', example: '2026-03-02T18:00:00.000000Z' })
  chartedAt!: string | null;
  @ApiProperty({ example: 1 }) revision!: number;
  @ApiProperty({ type: Object, example: WHOLE_FILM }) filmScope!: object;
  @ApiProperty({ example: 90, description: 'snaps that it has a record of, inside its scope' }) plays!: number;
  @ApiProperty({ example: 2105, description: 'values of it that count' }) values!: number;
}

export class PlaySourceResponse {
  @ApiProperty({ format: 'uuid', example: EXAMPLE_IDS.chart }) chartId!: string;
  @ApiProperty({ example: 41, description: 'number of the play in that chart' }) playNumber!: number;
  @ApiProperty({ type: [String], description: 'fields that count as this chart says', example: ['down', 'coverage'] })
  fields!: readonly string[];
}

export class ReconciledPlayResponse {
  @ApiProperty({ example: 41, description: 'number in the chart that counts' }) playNumber!: number;
  @ApiProperty({ example: 41 }) order!: number;
  @ApiProperty({ type: [PlaySourceResponse], description: 'by rising weight' }) sources!: readonly PlaySourceResponse[];
  @ApiProperty({ type: [String], example: ['coverage'], description: 'fields on which the charts differ' })
  disputed!: readonly string[];
}

export class ReconciledContradiction {
  @ApiProperty({ example: 41 }) playNumber!: number;
  @ApiProperty({ example: 'distance' }) field!: string;
  @ApiProperty({ example: '10' }) found!: string;
  @ApiProperty({ example: 'at most the 5 yards to the goal line' }) expected!: string;
}

export class ReconciliationResponse {
  @ApiProperty({ format: 'uuid', example: EXAMPLE_IDS.game }) gameId!: string;
  @ApiProperty({
    ...{ format: 'uuid', nullable: true, type: String, example: EXAMPLE_IDS.chart },
    description: 'the chart that counts; null without any',
  })
  chartId!: string | null;
  @ApiProperty({ type: Object, nullable: true, example: WHOLE_FILM }) filmScope!: object | null;
  @ApiProperty({ type: [ReconciledChartResponse], description: 'by rising weight: the widest first, the newest last' })
  charts!: readonly ReconciledChartResponse[];
  @ApiProperty({ example: 12, description: 'values on which charts differ' }) disputed!: number;
  @ApiProperty({ type: [ReconciledContradiction], description: 'plays that contradict themselves once put together' })
  contradictions!: readonly ReconciledContradiction[];
  @ApiProperty({ type: [ReconciledPlayResponse] }) plays!: readonly ReconciledPlayResponse[];
}
