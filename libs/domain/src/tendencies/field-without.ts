import type { TwoConcentrations } from '../statistics/fit-two-concentrations.js';
import type { DimensionName, DimensionValue } from './dimension-names.js';
import type { FieldModel } from './field-model.js';
import {
  concentrationAroundEstimate,
  effectiveFieldPlays,
  fieldMean,
  likenessOf,
  type FieldTotals,
} from './field-mean.js';
import type { Prior } from './prior.js';
import { fieldShare } from './results.js';
import type { FieldShare } from './results-shape.js';
import { ALL_SNAPS, type SituationKey } from './situation-keys.js';
import { situationPlays } from './situation-plays.js';
import { addTallies, type Tallies } from './value-tallies.js';

/** One dimension of the field in one situation, without one player's plays. */
export interface OthersCell {
  readonly tallies: Tallies;
  /** Counts over all snaps, for the prior's mean. */
  readonly overall: Tallies;
  readonly values: readonly DimensionValue[];
  /** The others' share of each value by its place, and of one that none of them has; nulls where nothing is known. */
  readonly shares: readonly (FieldShare | null)[];
  readonly noShare: FieldShare | null;
  /** Places of the values that the others use often enough for it to say something that a player never does. */
  readonly often: readonly number[];
  /** Fitted over all players, the one left out included: a fit says how players differ, not what one does. */
  readonly prior: Prior | null;
  /** The prior around the others' shares as far as these are known; null where there is none. */
  readonly around: TwoConcentrations | null;
  /** Prior share of each value by its place, for a player who does nothing that the others do not. */
  readonly mean: Float64Array;
}

/** Place of a value in a list that does not hold it. */
export const NOWHERE = -1;

/** Common practice, no source: where the field does it this often, it says something that a player does not. */
const NOTABLE_FIELD_SHARE = 0.1;

/** Players whose field is kept: those whom a clan prepares for. */
const KEPT_PLAYERS = 16;
const KEPT = new WeakMap<FieldModel, Map<number, FieldWithout>>();

/**
 * The field as one player meets it; worked out once for all questions about the player.
 *
 * @param player - whose plays are left out; -1 for nobody's
 */
export function fieldWithout(field: FieldModel, player: number): FieldWithout {
  const kept = KEPT.get(field) ?? new Map<number, FieldWithout>();
  KEPT.set(field, kept);
  const known = kept.get(player);
  if (known !== undefined) return known;
  const [oldest] = kept.keys();
  if (kept.size >= KEPT_PLAYERS && oldest !== undefined) kept.delete(oldest);
  const without = new FieldWithout(field, player);
  kept.set(player, without);
  return without;
}

/**
 * @param foreign - values that the player uses and the others do not
 * @returns share of each value, the foreign ones behind the others'
 */
export function priorMean(tallies: Tallies, overall: Tallies, foreign: number): Float64Array {
  // Two at least, since a prior over a single value knows everything.
  return fieldMean(tallies.counts, overall.counts, Math.max(2, tallies.counts.length + foreign));
}

function aroundOthers(prior: Prior, field: FieldTotals): TwoConcentrations {
  const plays = effectiveFieldPlays(field, likenessOf(prior));
  return {
    weight: prior.weight,
    tight: concentrationAroundEstimate(prior.tight, plays),
    loose: concentrationAroundEstimate(prior.loose, plays),
  };
}

class FieldWithout {
  readonly #field: FieldModel;
  readonly #own: ReadonlyMap<SituationKey, Int32Array>;
  readonly #cells = new Map<DimensionName, Map<SituationKey, OthersCell>>();
  readonly #overall = new Map<DimensionName, Tallies>();
  readonly #places = new Map<DimensionName, ReadonlyMap<string, number>>();

  constructor(field: FieldModel, player: number) {
    this.#field = field;
    this.#own = player < 0 ? new Map() : situationPlays(field.facts, field.playsOf(player));
  }

  cell(dimension: DimensionName, situation: SituationKey): OthersCell {
    let cells = this.#cells.get(dimension);
    if (cells === undefined) this.#cells.set(dimension, (cells = new Map<SituationKey, OthersCell>()));
    let cell = cells.get(situation);
    if (cell === undefined) cells.set(situation, (cell = this.#cell(dimension, situation)));
    return cell;
  }

  /** Where a value stands in the field's list, `NOWHERE` where the field does not have it. */
  placeOf(dimension: DimensionName, key: string): number {
    let places = this.#places.get(dimension);
    if (places === undefined) {
      places = new Map(this.#field.codes(dimension).values.map(({ key: listed }, place) => [listed, place]));
      this.#places.set(dimension, places);
    }
    return places.get(key) ?? NOWHERE;
  }

  #cell(dimension: DimensionName, situation: SituationKey): OthersCell {
    const { values } = this.#field.codes(dimension);
    const all = this.#field.cell(dimension, situation);
    const tallies = this.#tallies(dimension, situation);
    const prior = this.#field.prior(dimension, situation);
    const overall = this.#overallOf(dimension);
    const squares = all.squares - (all.tallies.known - tallies.known) ** 2;
    const shares = Array.from(tallies.counts, (count) => fieldShare(count, tallies.known));
    return {
      tallies,
      overall,
      values,
      shares,
      noShare: fieldShare(0, tallies.known),
      often: [...shares.keys()].filter((place) => (shares[place]?.share ?? 0) >= NOTABLE_FIELD_SHARE),
      prior,
      around: prior === null || tallies.known === 0 ? null : aroundOthers(prior, { plays: tallies.known, squares }),
      mean: priorMean(tallies, overall, 0),
    };
  }

  /** Plays of the others with a result in the situation, and those that succeeded. */
  results(situation: SituationKey): { readonly trials: number; readonly successes: number } {
    const all = this.#field.results(situation);
    const own = this.#field.resultsOf(this.#ownPlays(situation));
    return { trials: all.trials - own.trials, successes: all.successes - own.successes };
  }

  #tallies(dimension: DimensionName, situation: SituationKey): Tallies {
    const { tallies } = this.#field.cell(dimension, situation);
    const own = this.#ownPlays(situation);
    if (own.length === 0) return tallies;
    const others = {
      known: tallies.known,
      counts: tallies.counts.slice(),
      trials: tallies.trials.slice(),
      successes: tallies.successes.slice(),
    };
    addTallies(others, this.#field.facts, own, this.#field.codes(dimension).codes, -1);
    return others;
  }

  #overallOf(dimension: DimensionName): Tallies {
    const kept = this.#overall.get(dimension);
    if (kept !== undefined) return kept;
    const overall = this.#tallies(dimension, ALL_SNAPS);
    this.#overall.set(dimension, overall);
    return overall;
  }

  #ownPlays(situation: SituationKey): Int32Array {
    return this.#own.get(situation) ?? new Int32Array(0);
  }
}
