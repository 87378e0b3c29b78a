import { dirichletMultinomialEvidence } from '../statistics/dirichlet-multinomial-evidence.js';
import type { TwoConcentrations } from '../statistics/fit-two-concentrations.js';
import { wilsonIntervalWeighted } from '../statistics/wilson-interval.js';
import type { DimensionCodes } from './dimension-codes.js';
import { DIMENSION_LABELS, type DimensionName, type DimensionValue } from './dimension-names.js';
import { Evidence } from './evidence.js';
import { concentrationAroundEstimate, fieldMean } from './field-mean.js';
import type { OthersCell } from './field-without.js';
import type { DimensionProfile } from './profile-shape.js';
import { fieldShare, resultsOf } from './results.js';
import { sharePosterior, type PlayerKind, type SharePosterior } from './share-posterior.js';
import type { TendencyPlays } from './tendency-plays.js';
import { ValueShare, type ShareWork, type ValuePlace } from './value-share.js';
import { addTallies, emptyTallies, yardTallies, type Tallies, type YardTallies } from './value-tallies.js';
import { weightedShares } from './weighted-shares.js';

/** A value that the player never used is listed when the field uses it this often ... */
const NOTABLE_FIELD_SHARE = 0.1;
/** ... and the player had this many plays to use it on: fewer, and not using it says nothing. */
const NOTABLE_KNOWN = 10;

export interface DimensionInput {
  readonly dimension: DimensionName;
  readonly facts: TendencyPlays;
  /** The player's plays in the situation. */
  readonly places: Int32Array;
  readonly read: DimensionCodes;
  readonly others: OthersCell;
  readonly confidence: number;
  readonly weights: Float64Array | null;
}

/** One dimension of a profile in one situation; the visibility is left to the caller. */
export function dimensionProfile(input: DimensionInput): DimensionProfile {
  const { dimension, facts, places, read, others, weights } = input;
  const tallies = emptyTallies(read.values.length);
  addTallies(tallies, facts, places, read.codes);
  const { shares, effectiveKnown } = weightedShares(tallies, places, read.codes, weights);
  const base = { dimension, label: DIMENSION_LABELS[dimension], known: tallies.known, effectiveKnown };
  // Weights may rule out every play that there is.
  if (effectiveKnown === 0) return { ...base, prior: null, values: [], visibility: null };

  const hasField = others.tallies.known > 0;
  const work = shareWork(input, tallies, shares, effectiveKnown);
  const found: ValuePlace[] = [];
  const used = new Set<string>();
  read.values.forEach((value, code) => {
    const count = tallies.counts[code] ?? 0;
    if (count === 0) return;
    used.add(value.key);
    const fieldPlace = others.placeOf.get(value.key) ?? NOWHERE;
    found.push({ value, count, share: shares[code] ?? 0, code, fieldPlace });
  });
  if (hasField && effectiveKnown >= NOTABLE_KNOWN) {
    others.values.forEach((value, fieldPlace) => {
      const often = (others.tallies.counts[fieldPlace] ?? 0) >= NOTABLE_FIELD_SHARE * others.tallies.known;
      if (often && !used.has(value.key)) found.push({ value, count: 0, share: 0, code: NOWHERE, fieldPlace });
    });
  }
  found.sort((a, b) => b.share - a.share || b.count - a.count);
  return {
    ...base,
    prior: hasField ? others.prior : null,
    values: found.map((place) => new ValueShare(place, work)),
    visibility: null,
  };
}

function shareWork(
  { facts, places, read, others, confidence }: DimensionInput,
  tallies: Tallies,
  shares: Float64Array,
  known: number,
): ShareWork {
  const field = others.tallies;
  const posteriorOf = posteriors(shares, known, read.values, others);
  let yards: YardTallies | undefined;
  return {
    raw: ({ share }) => ({ share, interval: wilsonIntervalWeighted(share, known, confidence) }),
    field: ({ fieldPlace }) => fieldShare(field.counts[fieldPlace] ?? 0, field.known),
    posterior: ({ share, fieldPlace }) => posteriorOf(share, fieldPlace),
    shrunk: ({ share, fieldPlace }) => {
      const posterior = posteriorOf(share, fieldPlace);
      return posterior === null ? null : { share: posterior.share, interval: posterior.interval(confidence) };
    },
    results: ({ code, fieldPlace }) => {
      yards ??= yardTallies(facts, places, read.codes, read.values.length);
      const theirs = { trials: field.trials[fieldPlace] ?? 0, successes: field.successes[fieldPlace] ?? 0 };
      const own = { trials: tallies.trials[code] ?? 0, successes: tallies.successes[code] ?? 0 };
      return resultsOf(own, field.known > 0 ? theirs : null, yards, code, confidence);
    },
    evidence: ({ code }) => new Evidence(facts.plays, places, (play) => read.codes[play] === code),
  };
}

/** Place of a value in a list that does not hold it. */
const NOWHERE = -1;

interface PriorOfPlayer {
  readonly kinds: readonly PlayerKind[];
  /** Prior share by the value's place in the field's list. */
  readonly mean: Float64Array;
  /** Prior share of a value that the field does not know. */
  readonly foreignMean: number;
}

/** What is believed of each share, given the player's (weighted) shares and the field; null without a field. */
function posteriors(
  shares: Float64Array,
  known: number,
  values: readonly DimensionValue[],
  others: OthersCell,
): (share: number, place: number) => SharePosterior | null {
  const { prior, tallies } = others;
  if (prior === null || tallies.known === 0) return () => null;
  let before: PriorOfPlayer | undefined;
  return (share, place) => {
    before ??= priorOfPlayer(shares, known, values, others, aroundEstimate(prior, others.effectivePlays));
    return sharePosterior(share * known, known, before.mean[place] ?? before.foreignMean, before.kinds);
  };
}

function aroundEstimate({ weight, tight, loose }: TwoConcentrations, fieldPlays: number): TwoConcentrations {
  return {
    weight,
    tight: concentrationAroundEstimate(tight, fieldPlays),
    loose: concentrationAroundEstimate(loose, fieldPlays),
  };
}

function priorOfPlayer(
  shares: Float64Array,
  known: number,
  values: readonly DimensionValue[],
  { tallies, overall, placeOf }: OthersCell,
  prior: TwoConcentrations,
): PriorOfPlayer {
  const foreign = values.filter(({ key }, code) => (shares[code] ?? 0) > 0 && !placeOf.has(key)).length;
  // Two at least, since a prior over a single value knows everything.
  const columns = Math.max(2, tallies.counts.length + foreign);
  const mean = fieldMean(tallies.counts, overall.counts, columns);

  const used: number[] = [];
  const means: number[] = [];
  let next = tallies.counts.length;
  values.forEach(({ key }, code) => {
    const share = shares[code] ?? 0;
    if (share === 0) return;
    used.push(share * known);
    means.push(mean[placeOf.get(key) ?? next++] ?? 0);
  });
  // The values that were not used count as one: their evidence is that of no plays.
  const rest = 1 - means.reduce((sum, part) => sum + part, 0);
  if (rest > 1e-9) {
    used.push(0);
    means.push(rest);
  }
  return { kinds: playerKinds(used, means, prior), mean, foreignMean: mean[tallies.counts.length] ?? 0 };
}

function playerKinds(
  counts: readonly number[],
  means: readonly number[],
  { weight, tight, loose }: TwoConcentrations,
): readonly PlayerKind[] {
  const ahead =
    means.length < 2
      ? 0
      : dirichletMultinomialEvidence(counts, means, loose) - dirichletMultinomialEvidence(counts, means, tight);
  const specialist = 1 / (1 + Math.exp(Math.log1p(-weight) - Math.log(weight) - ahead));
  return [
    { probability: specialist, concentration: loose },
    { probability: 1 - specialist, concentration: tight },
  ];
}
