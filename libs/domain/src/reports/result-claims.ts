import { DIMENSION_LABELS, type DimensionName } from '../tendencies/dimension-names.js';
import type { Evidence } from '../tendencies/evidence.js';
import type { Profile, SituationProfile } from '../tendencies/profile-shape.js';
import type { Results } from '../tendencies/results-shape.js';
import { ALL_SNAPS } from '../tendencies/situation-keys.js';
import type { Side } from '../tendencies/tendency-plays.js';
import { claimId } from './claim-ids.js';
import type { ResultClaim } from './round-report-shape.js';
import { allSnaps, plain, references, type ClaimSource } from './share-claims.js';

interface ResultSubject {
  readonly situation: string;
  readonly dimension: DimensionName | null;
  readonly valueKey: string;
  readonly termId: number | null;
  readonly label: string;
  readonly results: Results;
  readonly evidence: Evidence;
}

/** Null where no play of the subject has a result. */
function resultClaim({ side, facts }: ClaimSource, subject: ResultSubject): ResultClaim | null {
  const { situation, dimension, results, valueKey } = subject;
  const { success, fieldSuccess, yards, explosive } = results;
  if (success === null) return null;
  const places = subject.evidence.places();
  const succeeded = places.filter((play) => facts.success[play] === 1);
  const failed = places.filter((play) => facts.success[play] === 0);
  return {
    id: claimId([side, situation, dimension ?? 'every call', valueKey, 'result']),
    side,
    situation,
    dimension,
    dimensionLabel: dimension === null ? null : DIMENSION_LABELS[dimension],
    label: subject.label,
    termId: subject.termId,
    successes: results.successes,
    trials: results.trials,
    rate: success.share,
    interval: plain(success.interval),
    fieldRate: fieldSuccess?.share ?? null,
    fieldTrials: fieldSuccess?.known ?? 0,
    yardsMean: yards?.mean ?? null,
    yardsPlays: yards?.plays ?? 0,
    explosiveCount: explosive?.count ?? null,
    explosivePlays: explosive?.plays ?? 0,
    plays: references(facts.plays, [...succeeded, ...failed]),
  };
}

/** How a situation as a whole ended. */
export function situationResult(source: ClaimSource, situation: SituationProfile): ResultClaim | null {
  const { results, evidence } = situation;
  const label = situation.situation;
  return resultClaim(source, {
    situation: label,
    dimension: null,
    valueKey: 'all',
    termId: null,
    label,
    results,
    evidence,
  });
}

/** Calls whose results are weighed: the player's own on offense, the player's defense by what it met. */
const WEIGHED: Readonly<Record<Side, readonly DimensionName[]>> = {
  offense: ['called', 'callFamily', 'concept', 'formation'],
  defense: ['coverage', 'coverageFamily', 'front', 'pressure'],
};

const FEWEST_TRIALS = 5;
/** Five points of success decide nothing. */
const LEAST_DISTANCE = 0.05;
/** Plays by which a rate is pulled to the field's before rates are ranked; the order only, no figure shown. */
const RANKING_WEIGHT = 20;

export interface StrongAndWeak {
  readonly strong: readonly ResultClaim[];
  readonly weak: readonly ResultClaim[];
}

/**
 * Where a player is strong and weak by success against the field's rate in the same place; without a field, against
 * the player's own rate over all snaps. A defense is strong where few plays succeeded against it. An order to look in,
 * not a test: each claim carries its own counts and interval.
 *
 * @param most - claims in each list
 */
export function strongAndWeak(source: ClaimSource, profile: Profile, most: number): StrongAndWeak {
  const all = allSnaps(profile.situations);
  const ownRate = all?.results.success?.share;
  if (all === undefined || ownRate === undefined) return { strong: [], weak: [] };
  const situations = profile.situations
    .filter(({ situation }) => situation !== ALL_SNAPS)
    .map((situation) => situationResult(source, situation));
  const calls = all.dimensions
    .filter(({ dimension }) => WEIGHED[source.side].includes(dimension))
    .flatMap(({ dimension, values }) =>
      values.map(({ value, results, evidence }) =>
        resultClaim(source, {
          situation: ALL_SNAPS,
          dimension,
          valueKey: value.key,
          termId: value.termId,
          label: value.label,
          results,
          evidence,
        }),
      ),
    );
  const ranked = [...situations, ...calls]
    .filter((claim) => claim !== null)
    .map((claim) => ({ claim, lead: leadOf(claim, ownRate, source.side) }))
    .filter(({ claim, lead }) => claim.trials >= FEWEST_TRIALS && Math.abs(lead.raw) >= LEAST_DISTANCE)
    .sort((a, b) => b.lead.pulled - a.lead.pulled);
  return {
    strong: ranked
      .filter(({ lead }) => lead.raw > 0)
      .slice(0, most)
      .map(({ claim }) => claim),
    weak: ranked
      .filter(({ lead }) => lead.raw < 0)
      .reverse()
      .slice(0, most)
      .map(({ claim }) => claim),
  };
}

/** How much better than the field the player fared. */
function leadOf(claim: ResultClaim, ownRate: number, side: Side): { readonly raw: number; readonly pulled: number } {
  const sign = side === 'offense' ? 1 : -1;
  const raw = sign * (claim.rate - (claim.fieldRate ?? ownRate));
  return { raw, pulled: (raw * claim.trials) / (claim.trials + RANKING_WEIGHT) };
}
