import { logRising } from '../statistics/dirichlet-multinomial-evidence.js';
import type { ShareEstimate } from '../statistics/dirichlet-multinomial-posterior.js';
import type { TwoConcentrations } from '../statistics/fit-two-concentrations.js';
import { specialistProbability } from '../statistics/posterior-shares.js';
import { wilsonIntervalWeighted } from '../statistics/wilson-interval.js';
import type { DimensionCodes } from './dimension-codes.js';
import { DIMENSION_LABELS, type DimensionName } from './dimension-names.js';
import { Evidence } from './evidence.js';
import { NOWHERE, priorMean, type OthersCell } from './field-without.js';
import type { DimensionProfile, VisibilityWarning } from './profile-shape.js';
import { resultsOf } from './results.js';
import type { FieldShare, Results } from './results-shape.js';
import { SharePosteriors, type SharePosterior } from './share-posterior.js';
import type { TendencyPlays } from './tendency-plays.js';
import { ValueShare, type ShareWork } from './value-share.js';
import { addTallies, countValues, emptyTallies, yardTallies, type Tallies, type YardTallies } from './value-tallies.js';
import { weightedPlays, type WeightedPlays } from './weighted-plays.js';

/** On fewer plays it says nothing that a player did not do what the field does often. */
const NOTABLE_KNOWN = 10;

export interface DimensionInput {
  readonly dimension: DimensionName;
  readonly facts: TendencyPlays;
  /** The player's plays in the situation. */
  readonly places: Int32Array;
  readonly read: DimensionCodes;
  /** Where each of its values stands in the field's list, -1 where the field does not have it. */
  readonly fieldPlaces: readonly number[];
  readonly others: OthersCell;
  readonly confidence: number;
  readonly weights: Float64Array | null;
  readonly visibility: VisibilityWarning | null;
}

/** One dimension of a profile in one situation. */
export function dimensionProfile(input: DimensionInput): DimensionProfile {
  const { dimension, places, read, fieldPlaces, others, weights, visibility } = input;
  const counted = countValues(places, read.codes, read.values.length);
  const weighted = weightedPlays(counted, places, read.codes, weights);
  const { plays, effectiveKnown } = weighted;
  const label = DIMENSION_LABELS[dimension];
  const { known } = counted;
  // Weights may rule out every play that there is.
  if (effectiveKnown === 0) return { dimension, label, known, effectiveKnown, prior: null, values: [], visibility };

  const work = new CellWork(input, weighted);
  const found: ValueShare[] = [];
  for (let code = 0; code < read.values.length; code += 1) {
    const value = read.values[code];
    const count = counted.counts[code] ?? 0;
    if (value === undefined || count === 0) continue;
    const fieldPlace = fieldPlaces[code] ?? NOWHERE;
    insert(found, new ValueShare(value, count, (plays[code] ?? 0) / effectiveKnown, code, fieldPlace, work));
  }
  if (effectiveKnown >= NOTABLE_KNOWN) {
    for (const fieldPlace of others.often) {
      const value = others.values[fieldPlace];
      if (value === undefined || found.some((of) => of.fieldPlace === fieldPlace)) continue;
      found.push(new ValueShare(value, 0, 0, NOWHERE, fieldPlace, work));
    }
  }
  const prior = others.tallies.known > 0 ? others.prior : null;
  return { dimension, label, known, effectiveKnown, prior, values: found, visibility };
}

/** Keeps the most frequent first: for so few values a sort takes several times as long. */
function insert(found: ValueShare[], share: ValueShare): void {
  let at = found.push(share) - 1;
  for (; at > 0; at -= 1) {
    const before = found[at - 1];
    if (before === undefined || before.share > share.share) break;
    if (before.share === share.share && before.count >= share.count) break;
    found[at] = before;
  }
  found[at] = share;
}

class CellWork implements ShareWork {
  readonly #input: DimensionInput;
  readonly #weighted: WeightedPlays;
  #last: ShareEstimate | undefined;
  #outcomes: Outcomes | undefined;
  #prior: PriorOfPlayer | undefined;

  constructor(input: DimensionInput, weighted: WeightedPlays) {
    this.#input = input;
    this.#weighted = weighted;
  }

  raw({ share }: ValueShare): ShareEstimate {
    // Values come in the order of their shares, and many were used once.
    if (this.#last?.share !== share) {
      const interval = wilsonIntervalWeighted(share, this.#weighted.effectiveKnown, this.#input.confidence);
      this.#last = { share, interval };
    }
    return this.#last;
  }

  field({ fieldPlace }: ValueShare): FieldShare | null {
    const { shares, noShare } = this.#input.others;
    return shares[fieldPlace] ?? noShare;
  }

  isOneOff({ count, fieldPlace }: ValueShare): boolean {
    const { weights, others } = this.#input;
    // Weighted, one play may be most of a share.
    if (count !== 1 || weights !== null) return false;
    return this.#weighted.effectiveKnown < NOTABLE_KNOWN || !others.often.includes(fieldPlace);
  }

  posterior({ share, fieldPlace }: ValueShare): SharePosterior | null {
    const { others, fieldPlaces } = this.#input;
    if (others.around === null) return null;
    this.#prior ??= priorOfPlayer(this.#weighted, fieldPlaces, others, others.around);
    const { posteriors, mean, foreignMean } = this.#prior;
    return posteriors.of(share * this.#weighted.effectiveKnown, mean[fieldPlace] ?? foreignMean);
  }

  shrunk(of: ValueShare): ShareEstimate | null {
    const posterior = this.posterior(of);
    if (posterior === null) return null;
    return { share: posterior.share, interval: posterior.interval(this.#input.confidence) };
  }

  results({ code, fieldPlace }: ValueShare): Results {
    this.#outcomes ??= outcomesOf(this.#input);
    const { own, yards } = this.#outcomes;
    const field = this.#input.others.tallies;
    const theirs = { trials: field.trials[fieldPlace] ?? 0, successes: field.successes[fieldPlace] ?? 0 };
    const ours = { trials: own.trials[code] ?? 0, successes: own.successes[code] ?? 0 };
    return resultsOf(ours, field.known > 0 ? theirs : null, yards, code, this.#input.confidence);
  }

  evidence({ code }: ValueShare): Evidence {
    const { facts, places, read } = this.#input;
    return new Evidence(facts.plays, places, (play) => read.codes[play] === code);
  }
}

interface Outcomes {
  readonly own: Tallies;
  readonly yards: YardTallies;
}

/** Asked of few cells: nobody reads what came of each call in each situation. */
function outcomesOf({ facts, places, read: { codes, values } }: DimensionInput): Outcomes {
  const own = emptyTallies(values.length);
  addTallies(own, facts, places, codes);
  return { own, yards: yardTallies(facts, places, codes) };
}

interface PriorOfPlayer {
  readonly posteriors: SharePosteriors;
  /** Prior share by the value's place in the field's list. */
  readonly mean: Float64Array;
  /** Prior share of a value that the field does not know. */
  readonly foreignMean: number;
}

/**
 * What is believed before a share is looked at, given the player's (weighted) plays of the cell and the field.
 *
 * @see Mosimann (1962), Biometrika 49, 65–82 (the evidence of either kind of player)
 */
function priorOfPlayer(
  { plays, effectiveKnown }: WeightedPlays,
  fieldPlaces: readonly number[],
  { tallies, overall, mean: ofOthers }: OthersCell,
  prior: TwoConcentrations,
): PriorOfPlayer {
  let foreign = 0;
  for (let code = 0; code < plays.length; code += 1) {
    if ((plays[code] ?? 0) > 0 && (fieldPlaces[code] ?? NOWHERE) === NOWHERE) foreign += 1;
  }
  const mean = foreign === 0 ? ofOthers : priorMean(tallies, overall, foreign);
  const foreignMean = mean[tallies.counts.length] ?? 0;

  // How much better the counts are foretold by the loose prior. Values that were not used have nothing to say.
  const { weight, tight, loose } = prior;
  let ahead = logRising(tight, effectiveKnown) - logRising(loose, effectiveKnown);
  for (let code = 0; code < plays.length; code += 1) {
    const played = plays[code] ?? 0;
    if (played === 0) continue;
    const share = mean[fieldPlaces[code] ?? NOWHERE] ?? foreignMean;
    ahead += logRising(loose * share, played) - logRising(tight * share, played);
  }
  const specialist = specialistProbability(weight, ahead);
  const posteriors = new SharePosteriors(effectiveKnown, [
    { probability: specialist, concentration: loose },
    { probability: 1 - specialist, concentration: tight },
  ]);
  return { posteriors, mean, foreignMean };
}
