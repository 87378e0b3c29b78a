import type { Vocabulary } from '../charting/vocabulary.js';
import type { DimensionCodes } from './dimension-codes.js';
import { DIMENSION_NAMES, type DimensionName } from './dimension-names.js';
import { readDimension } from './dimensions.js';
import { playsByPlayer } from './plays-by-player.js';
import { fitPrior, type Prior } from './prior.js';
import { ALL_SNAPS, type SituationKey } from './situation-keys.js';
import { situationPlays } from './situation-plays.js';
import type { Side, TendencyPlays } from './tendency-plays.js';
import { addTallies, emptyTallies, resultCounts, type ResultCounts, type Tallies } from './value-tallies.js';

export interface FieldModelInput {
  readonly facts: TendencyPlays;
  readonly side: Side;
  /** For each play the player whose habit it shows: who has the ball, or on defense who defends; -1 for nobody's. */
  readonly playerOf: Int32Array;
  /** Every number in `playerOf` is below this. */
  readonly players: number;
  readonly vocabulary: Vocabulary;
}

/** One dimension of the field in one situation, everybody's plays. */
export interface FieldCell {
  readonly tallies: Tallies;
  /** Null where the field knows the dimension on no play. */
  readonly prior: Prior | null;
}

/**
 * The field's habits on one side of the ball. Dimensions are read, cells counted and priors fitted when first asked
 * for, and kept: an instance is meant to live as long as its archive's revision. A situation of any name that the batch
 * does not have is empty.
 */
export class FieldModel {
  readonly side: Side;
  readonly facts: TendencyPlays;
  readonly playerOf: Int32Array;
  /** Ascending places of a player's plays in the field's batch, counting or not. */
  readonly playsOf: (player: number) => Int32Array;
  readonly #players: number;
  readonly #vocabulary: Vocabulary;
  readonly #situations: ReadonlyMap<SituationKey, Int32Array>;
  readonly #codes = new Map<DimensionName, DimensionCodes>();
  readonly #cells = new Map<string, FieldCell>();
  readonly #results = new Map<SituationKey, ResultCounts>();

  constructor({ facts, side, playerOf, players, vocabulary }: FieldModelInput) {
    this.side = side;
    this.facts = facts;
    this.playerOf = playerOf;
    this.#players = players;
    this.#vocabulary = vocabulary;
    this.#situations = situationPlays(
      facts,
      Int32Array.from(playerOf.keys()).filter((play) => (playerOf[play] ?? -1) >= 0),
    );
    this.playsOf = playsByPlayer(playerOf, players);
  }

  /** Places of the field's counting plays in the situation. */
  plays(situation: SituationKey): Int32Array {
    return this.#situations.get(situation) ?? new Int32Array(0);
  }

  codes(dimension: DimensionName): DimensionCodes {
    const kept = this.#codes.get(dimension);
    if (kept !== undefined) return kept;
    const codes = readDimension(dimension, this.facts, this.#vocabulary);
    this.#codes.set(dimension, codes);
    return codes;
  }

  cell(dimension: DimensionName, situation: SituationKey): FieldCell {
    const key = `${dimension} in ${situation}`;
    const kept = this.#cells.get(key);
    if (kept !== undefined) return kept;
    const cell = this.#count(dimension, situation);
    this.#cells.set(key, cell);
    return cell;
  }

  results(situation: SituationKey): ResultCounts {
    const kept = this.#results.get(situation);
    if (kept !== undefined) return kept;
    const results = this.resultsOf(this.plays(situation));
    this.#results.set(situation, results);
    return results;
  }

  /** @param places - of plays in the model's own batch */
  resultsOf(places: Int32Array): ResultCounts {
    return resultCounts(this.facts, places);
  }

  /** Counts and fits every cell now instead of when it is first asked for. */
  warm(): void {
    for (const situation of this.#situations.keys()) {
      for (const dimension of DIMENSION_NAMES[this.side]) this.cell(dimension, situation);
    }
  }

  #count(dimension: DimensionName, situation: SituationKey): FieldCell {
    const { codes, values } = this.codes(dimension);
    const plays = this.plays(situation);
    const tallies = emptyTallies(values.length);
    addTallies(tallies, this.facts, plays, codes);
    if (tallies.known === 0) return { tallies, prior: null };

    // A field that only ever did one thing still needs a second category for a prior to be about.
    const columns = Math.max(2, values.length);
    const counts = new Int32Array(this.#players * columns);
    for (const play of plays) {
      const code = codes[play] ?? -1;
      if (code < 0) continue;
      const at = (this.playerOf[play] ?? 0) * columns + code;
      counts[at] = (counts[at] ?? 0) + 1;
    }
    const overall = situation === ALL_SNAPS ? tallies : this.cell(dimension, ALL_SNAPS).tallies;
    return { tallies, prior: fitPrior(counts, columns, priorMean(tallies.counts, overall.counts, columns)) };
  }
}

/**
 * The share of each value that a prior is centred on: the field's in the situation, to which its shares over all snaps
 * are added with the weight of one play, so that a thin situation is no extreme one; those in turn carry half a play a
 * value (Jeffreys's prior), so that nothing is impossible.
 *
 * @param counts  - plays of each value in the situation, missing ones 0
 * @param overall - plays of each value over all snaps
 * @param columns - values, ≥ 1
 * @returns shares > 0 that add up to 1
 */
export function priorMean(counts: ArrayLike<number>, overall: ArrayLike<number>, columns: number): number[] {
  let inSituation = 0;
  let inAll = 0;
  for (let value = 0; value < columns; value += 1) {
    inSituation += counts[value] ?? 0;
    inAll += overall[value] ?? 0;
  }
  return Array.from({ length: columns }, (_, value) => {
    const everywhere = ((overall[value] ?? 0) + 0.5) / (inAll + columns / 2);
    return ((counts[value] ?? 0) + everywhere) / (inSituation + 1);
  });
}

/**
 * The field model of one side over all visible counting plays.
 *
 * @param input - plays of every player, in any order; `playerOf` has one entry a play
 */
export function fieldModel(input: FieldModelInput): FieldModel {
  return new FieldModel(input);
}
