import type { DimensionName, DimensionValue } from './dimension-names.js';
import type { FieldModel } from './field-model.js';
import { effectiveFieldPlays, likenessOf } from './field-mean.js';
import type { Prior } from './prior.js';
import { ALL_SNAPS, type SituationKey } from './situation-keys.js';
import { situationPlays } from './situation-plays.js';
import { addTallies, type Tallies } from './value-tallies.js';

/** One dimension of the field in one situation, without one player's plays. */
export interface OthersCell {
  readonly tallies: Tallies;
  /** Counts over all snaps, for the prior's mean. */
  readonly overall: Tallies;
  readonly values: readonly DimensionValue[];
  readonly placeOf: ReadonlyMap<string, number>;
  /** Fitted over all players, the one left out included: a fit says how players differ, not what one does. */
  readonly prior: Prior | null;
  /** Independent plays that the others' shares are worth. */
  readonly effectivePlays: number;
}

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

class FieldWithout {
  readonly #field: FieldModel;
  readonly #own: ReadonlyMap<SituationKey, Int32Array>;
  readonly #cells = new Map<string, OthersCell>();
  readonly #overall = new Map<DimensionName, Tallies>();
  readonly #placesOf = new Map<DimensionName, ReadonlyMap<string, number>>();

  constructor(field: FieldModel, player: number) {
    this.#field = field;
    this.#own = player < 0 ? new Map() : situationPlays(field.facts, field.playsOf(player));
  }

  cell(dimension: DimensionName, situation: SituationKey): OthersCell {
    const key = `${dimension} ${situation}`;
    const cell = this.#cells.get(key) ?? this.#cell(dimension, situation);
    this.#cells.set(key, cell);
    return cell;
  }

  #cell(dimension: DimensionName, situation: SituationKey): OthersCell {
    const { values } = this.#field.codes(dimension);
    const all = this.#field.cell(dimension, situation);
    const tallies = this.#tallies(dimension, situation);
    const prior = this.#field.prior(dimension, situation);
    const squares = all.squares - (all.tallies.known - tallies.known) ** 2;
    return {
      tallies,
      overall: this.#overallOf(dimension),
      values,
      placeOf: this.#places(dimension, values),
      prior,
      effectivePlays: prior === null ? 0 : effectiveFieldPlays({ plays: tallies.known, squares }, likenessOf(prior)),
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

  #places(dimension: DimensionName, values: readonly DimensionValue[]): ReadonlyMap<string, number> {
    const kept = this.#placesOf.get(dimension);
    if (kept !== undefined) return kept;
    const places = new Map(values.map(({ key }, place) => [key, place]));
    this.#placesOf.set(dimension, places);
    return places;
  }

  #ownPlays(situation: SituationKey): Int32Array {
    return this.#own.get(situation) ?? new Int32Array(0);
  }
}
