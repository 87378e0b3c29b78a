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
import type { Results } from './results-shape.js';
import { sharePosterior, type PlayerKind, type SharePosterior } from './share-posterior.js';
import type { TendencyPlays } from './tendency-plays.js';
import { ValueShare } from './value-share.js';
import { addTallies, emptyTallies, yardTallies, type YardTallies } from './value-tallies.js';
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
  const { dimension, facts, places, read, others, confidence, weights } = input;
  const tallies = emptyTallies(read.values.length);
  addTallies(tallies, facts, places, read.codes);
  const { shares, effectiveKnown } = weightedShares(tallies, places, read.codes, weights);
  const base = { dimension, label: DIMENSION_LABELS[dimension], known: tallies.known, effectiveKnown };
  // Weights may rule out every play that there is.
  if (effectiveKnown === 0) return { ...base, prior: null, values: [], visibility: null };

  let yards: YardTallies | undefined;
  const posteriorOf = posteriors(shares, effectiveKnown, read.values, others);
  const hasField = others.tallies.known > 0;

  const valueShare = (value: DimensionValue, code: number, place: number): ValueShare => {
    const share = shares[code] ?? 0;
    const own = { trials: tallies.trials[code] ?? 0, successes: tallies.successes[code] ?? 0 };
    const theirs = { trials: others.tallies.trials[place] ?? 0, successes: others.tallies.successes[place] ?? 0 };
    const parts = {
      value,
      count: tallies.counts[code] ?? 0,
      raw: { share, interval: wilsonIntervalWeighted(share, effectiveKnown, confidence) },
      field: fieldShare(others.tallies.counts[place] ?? 0, others.tallies.known),
      evidence: new Evidence(facts.plays, places, (play) => read.codes[play] === code),
    };
    const results = (): Results => {
      yards ??= yardTallies(facts, places, read.codes, read.values.length);
      return resultsOf(own, hasField ? theirs : null, yards, code, confidence);
    };
    return new ValueShare(parts, { posterior: () => posteriorOf(share, place), results }, confidence);
  };

  const seen = read.values.flatMap((value, code) =>
    (tallies.counts[code] ?? 0) > 0 ? [valueShare(value, code, others.placeOf.get(value.key) ?? NOWHERE)] : [],
  );
  const used = new Set(seen.map(({ value }) => value.key));
  const unseen = (effectiveKnown < NOTABLE_KNOWN ? [] : others.values).flatMap((value, place) => {
    const often = (others.tallies.counts[place] ?? 0) >= NOTABLE_FIELD_SHARE * others.tallies.known;
    return hasField && often && !used.has(value.key) ? [valueShare(value, NOWHERE, place)] : [];
  });
  const values = [...seen, ...unseen].sort((a, b) => b.raw.share - a.raw.share || b.count - a.count);
  return { ...base, prior: hasField ? others.prior : null, values, visibility: null };
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
