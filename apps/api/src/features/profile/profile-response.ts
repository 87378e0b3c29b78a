import type { PlayColumns } from '#domain/charting/play-columns.js';
import type { ShareEstimate } from '#domain/statistics/dirichlet-multinomial-posterior.js';
import type { Evidence } from '#domain/tendencies/evidence.js';
import type { DimensionProfile, Profile, SituationProfile } from '#domain/tendencies/profile-shape.js';
import type { FieldShare, Results } from '#domain/tendencies/results-shape.js';
import type { ValueShare } from '#domain/tendencies/value-share.js';
import type {
  DimensionResponse,
  EstimateResponse,
  FieldShareResponse,
  PlayReferenceResponse,
  ProfileResponse,
  ResultsResponse,
  SituationResponse,
  ValueShareResponse,
} from './profile.dto.js';

/**
 * A profile as it goes out.
 *
 * @param evidence - the plays it was computed from where every share shall list its own, else null
 */
export function profileResponse(
  profile: Profile,
  of: Pick<ProfileResponse, 'playerId' | 'handle' | 'newestGame'>,
  evidence: PlayColumns | null,
): ProfileResponse {
  const { side, confidence, snaps, games, situations } = profile;
  return {
    ...of,
    side,
    confidence,
    snaps,
    games,
    situations: situations.map((situation) => situationResponse(situation, evidence)),
  };
}

/** Of fewer plays a success rate says nothing; the plays themselves can be asked for. */
const FEWEST_RESULTS = 5;

/** Shares to four places: a tenth of a tenth of a percent, far finer than any interval here. */
function rounded(share: number): number {
  return Math.round(share * 10_000) / 10_000;
}

function estimate(share: ShareEstimate | null): EstimateResponse | null {
  if (share === null) return null;
  const { lower, upper } = share.interval;
  return { share: rounded(share.share), interval: { lower: rounded(lower), upper: rounded(upper) } };
}

function fieldShare(field: FieldShare | null): FieldShareResponse | null {
  return field === null ? null : { ...field, share: rounded(field.share) };
}

function resultsResponse({ trials, successes, success, fieldSuccess, yards, explosive }: Results): ResultsResponse {
  return {
    trials,
    successes,
    success: estimate(success),
    fieldSuccess: fieldShare(fieldSuccess),
    yards: yards === null ? null : { plays: yards.plays, mean: rounded(yards.mean) },
    explosive: explosive === null ? null : { ...explosive, share: rounded(explosive.share) },
  };
}

function situationResponse(profile: SituationProfile, evidence: PlayColumns | null): SituationResponse {
  const { situation, snaps, games, results, dimensions } = profile;
  return {
    situation,
    snaps,
    games,
    results: resultsResponse(results),
    dimensions: dimensions.map((dimension) => dimensionResponse(dimension, evidence)),
  };
}

function dimensionResponse(profile: DimensionProfile, evidence: PlayColumns | null): DimensionResponse {
  const { dimension, label, known, values, visibility } = profile;
  return { dimension, label, known, visibility, values: values.map((value) => valueResponse(value, evidence)) };
}

function valueResponse(share: ValueShare, evidence: PlayColumns | null): ValueShareResponse {
  const { value, count, raw, shrunk, field, conflict, results } = share;
  return {
    label: value.label,
    termId: value.termId,
    count,
    raw: {
      share: rounded(raw.share),
      interval: { lower: rounded(raw.interval.lower), upper: rounded(raw.interval.upper) },
    },
    shrunk: estimate(shrunk),
    field: fieldShare(field),
    conflict,
    results: results.trials < FEWEST_RESULTS ? null : resultsResponse(results),
    ...(evidence === null ? {} : { plays: references(share.evidence, evidence) }),
  };
}

function references(evidence: Evidence, plays: PlayColumns): PlayReferenceResponse[] {
  return evidence.references().map(({ chartIndex, playNumber }) => ({
    chartId: plays.charts[chartIndex]?.chartId ?? '',
    playNumber,
  }));
}
