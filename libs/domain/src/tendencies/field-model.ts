import type { Vocabulary } from '../charting/vocabulary.js';
import { narrow, PlayColumns } from '../charting/play-columns.js';
import type { CodeFieldName, PlayFieldName } from '../charting/play-fields.js';
import type { DimensionCodes } from './dimension-codes.js';
import { DIMENSION_NAMES, type DimensionName } from './dimension-names.js';
import { chartedField, readDimension } from './dimensions.js';
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
  /**
   * `situationPlays` of those plays that show somebody's habit, where the caller has them for the model of the other side
   * too: they take eight bytes a play. Worked out when left out.
   */
  readonly situations?: ReadonlyMap<SituationKey, Int32Array>;
}

/** A dimension as the field keeps it: in one byte a play wherever its values fit. */
export interface KeptCodes {
  readonly codes: Int8Array | Int16Array;
  readonly values: DimensionCodes['values'];
}

/** One dimension of the field in one situation, everybody's plays. */
export interface FieldCell {
  readonly tallies: Tallies;
  /** Sum over players of the square of their known plays: how much the plays lie with a few. */
  readonly squares: number;
}

/**
 * The field's habits on one side of the ball. Cells are counted and priors fitted when first asked for, and
 * kept: an instance is meant to live as long as its archive's revision. A situation of any name that the batch
 * does not have is empty.
 */
export class FieldModel {
  readonly side: Side;
  readonly facts: TendencyPlays;
  readonly playerOf: Int32Array;
  /** Ascending places of a player's plays in the field's batch, counting or not. */
  readonly playsOf: (player: number) => Int32Array;
  readonly #players: number;
  readonly #situations: ReadonlyMap<SituationKey, Int32Array>;
  readonly #codes = new Map<DimensionName, KeptCodes>();
  readonly #cells = new Map<string, FieldCell>();
  readonly #priors = new Map<string, Prior | null>();
  readonly #results = new Map<SituationKey, ResultCounts>();

  constructor({ facts, side, playerOf, players, vocabulary, situations }: FieldModelInput) {
    this.side = side;
    const charted: CodeFieldName[] = [];
    for (const dimension of DIMENSION_NAMES[side]) {
      const { codes, values } = readDimension(dimension, facts, vocabulary);
      const field = chartedField(dimension);
      if (field !== null) charted.push(field);
      // No copy of what is there.
      const there = dimension === 'called' ? facts.called : field === null ? null : facts.plays.code(field).codes;
      this.#codes.set(dimension, { codes: there ?? narrow(codes, values.length), values });
    }
    this.facts = { ...facts, plays: withOnly(charted, facts.plays) };
    this.playerOf = playerOf;
    this.#players = players;
    this.#situations = situations ?? situationPlays(facts, somebodys(playerOf));
    this.playsOf = playsByPlayer(playerOf, facts.plays.chartIndex, players);
  }

  /** Places of the field's counting plays in the situation. */
  plays(situation: SituationKey): Int32Array {
    return this.#situations.get(situation) ?? new Int32Array(0);
  }

  codes(dimension: DimensionName): KeptCodes {
    const codes = this.#codes.get(dimension);
    if (codes === undefined) throw new Error(`the model of the ${this.side} has no ${dimension}`);
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
      for (const dimension of DIMENSION_NAMES[this.side]) this.prior(dimension, situation);
    }
  }

  /**
   * How much players differ in a dimension: over all snaps by itself, in the situations together. Null where the field
   * knows the dimension on no play.
   */
  prior(dimension: DimensionName, situation: SituationKey): Prior | null {
    const key = `${dimension} ${situation === ALL_SNAPS ? 'over all snaps' : 'in situations'}`;
    const kept = this.#priors.get(key);
    if (kept !== undefined) return kept;
    // A field that only ever did one thing still needs a second category for a prior to be about.
    const columns = Math.max(2, this.codes(dimension).values.length);
    const overall = this.#playerCounts(dimension, ALL_SNAPS, columns);
    const cells = [...this.#situations.keys()]
      .filter((name) => (name === ALL_SNAPS) === (situation === ALL_SNAPS))
      .filter((name) => this.cell(dimension, name).tallies.known > 0)
      .map((name) => ({ columns, counts: this.#playerCounts(dimension, name, columns), overall }));
    const prior = cells.length === 0 ? null : fitPrior(cells);
    this.#priors.set(key, prior);
    return prior;
  }

  #count(dimension: DimensionName, situation: SituationKey): FieldCell {
    const { codes, values } = this.codes(dimension);
    const plays = this.plays(situation);
    const tallies = emptyTallies(values.length);
    addTallies(tallies, this.facts, plays, codes);
    const sizes = new Int32Array(this.#players);
    for (const play of plays) {
      const player = this.playerOf[play] ?? 0;
      if ((codes[play] ?? -1) >= 0) sizes[player] = (sizes[player] ?? 0) + 1;
    }
    return { tallies, squares: sizes.reduce((sum, size) => sum + size * size, 0) };
  }

  #playerCounts(dimension: DimensionName, situation: SituationKey, columns: number): Int32Array {
    const { codes } = this.codes(dimension);
    const counts = new Int32Array(this.#players * columns);
    for (const play of this.plays(situation)) {
      const code = codes[play] ?? -1;
      if (code < 0) continue;
      const at = (this.playerOf[play] ?? 0) * columns + code;
      counts[at] = (counts[at] ?? 0) + 1;
    }
    return counts;
  }
}

/**
 * Plays with only those of their fields that are dimensions as they stand: once a play is classified and its dimensions
 * are read, what they were read from only takes memory, and a field is as large as the archive.
 */
function withOnly(fields: readonly PlayFieldName[], plays: PlayColumns): PlayColumns {
  const { charts, chartIndex, playNumber, orderInGame, offenseIsHome, columns } = plays;
  const carried = new Set(fields);
  const kept = new Map([...columns].filter(([name]) => carried.has(name)));
  return new PlayColumns({ charts, chartIndex, playNumber, orderInGame, offenseIsHome, columns: kept, carried });
}

/** Ascending places of plays that show somebody's habit. */
function somebodys(playerOf: Int32Array): Int32Array {
  const places = new Int32Array(playerOf.length);
  let size = 0;
  for (let play = 0; play < places.length; play += 1) if ((playerOf[play] ?? -1) >= 0) places[size++] = play;
  return places.subarray(0, size);
}

/**
 * The field model of one side over all visible counting plays.
 *
 * @param input - plays of every player, in any order; `playerOf` has one entry a play
 */
export function fieldModel(input: FieldModelInput): FieldModel {
  return new FieldModel(input);
}
