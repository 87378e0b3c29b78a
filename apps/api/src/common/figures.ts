import type { ShareEstimate } from '#domain/statistics/dirichlet-multinomial-posterior.js';
import type { Interval } from '#domain/statistics/interval.js';
import type { Counted, CountedShare } from '#domain/tendencies/decisions/counted-share.js';
import type { DimensionValue } from '#domain/tendencies/dimension-names.js';
import type { PointsAdded } from '#domain/tendencies/points-added.js';
import type { FieldShare, Results } from '#domain/tendencies/results-shape.js';
import type {
  CountedShareResponse,
  CountResponse,
  EstimateResponse,
  ExpectedPointsResponse,
  FieldShareResponse,
  IntervalResponse,
  ResultsResponse,
  ValueResponse,
} from './figures.dto.js';
import type { Plain } from './plain.js';

/** Shares to four places: a tenth of a tenth of a percent, far finer than any interval here. */
export function rounded(share: number): number {
  return Math.round(share * 10_000) / 10_000;
}

/** P-values to three figures, so that a very small one is still told from none. */
export function roundedP(pValue: number): number {
  return Number(pValue.toPrecision(3));
}

export function interval({ lower, upper }: Interval): IntervalResponse {
  return { lower: rounded(lower), upper: rounded(upper) };
}

export function estimate(share: ShareEstimate | null): EstimateResponse | null {
  return share === null ? null : { share: rounded(share.share), interval: interval(share.interval) };
}

export function fieldShare(field: FieldShare | null): FieldShareResponse | null {
  return field === null ? null : { ...field, share: rounded(field.share) };
}

export function count({ count: of, known }: Counted): CountResponse {
  return { count: of, known };
}

export function countedShare({ count: of, known, raw, field }: CountedShare): Plain<CountedShareResponse> {
  return { count: of, known, raw: estimate(raw), field: fieldShare(field) };
}

export function value({ label, termId }: DimensionValue): Plain<ValueResponse> {
  return { label, termId };
}

export function orNull<Part, Answer>(part: Part | null, shape: (part: Part) => Answer): Answer | null {
  return part === null ? null : shape(part);
}

export function results({ trials, successes, success, fieldSuccess, ...of }: Results): ResultsResponse {
  const { yards, explosive, pointsAdded } = of;
  return {
    trials,
    successes,
    success: estimate(success),
    fieldSuccess: fieldShare(fieldSuccess),
    yards: yards === null ? null : { plays: yards.plays, mean: rounded(yards.mean) },
    explosive: explosive === null ? null : { ...explosive, share: rounded(explosive.share) },
    expectedPointsAdded: expectedPoints(pointsAdded),
  };
}

export function expectedPoints(of: PointsAdded | null): Plain<ExpectedPointsResponse> | null {
  return orNull(of, ({ plays, mean, interval: bounds }) => ({
    plays,
    mean: rounded(mean),
    interval: orNull(bounds, interval),
  }));
}
