import { UNKNOWN_POINTS } from '../football/expected-points-added.js';
import { DomainError } from '../domain-error.js';
import type { Combination, EffectPart } from '../statistics/mixed-model-equations.js';
import type { RandomFactor } from '../statistics/mixed-model-input.js';
import { fitMixedModel, type MixedModel } from '../statistics/mixed-model.js';
import { expectedBySituation, situationMeans, type CodedPlays, type SituationMeans } from './coded-plays.js';
import { playerEffects, type PlayerEffects } from './player-effects.js';

/** Variances between calls, answers and so on, in the square of the outcome's unit. */
export interface OutcomeVariances {
  readonly call: number;
  readonly answer: number;
  readonly interaction: number;
  readonly offense: number;
  readonly defense: number;
  readonly gameSide: number;
  readonly residual: number;
}

/** One call against one answer, with the part that it has in a mean. */
export interface WeightedCell {
  readonly call: number;
  readonly answer: number;
  readonly weight: number;
}

const CALL = 0;
const ANSWER = 1;
const INTERACTION = 2;

/**
 * More levels than this beside the interaction, and players and games are taken out before the calls are fitted instead
 * of together with them: the cost of the whole grows with the cube. See `playerEffects` for what that leaves out.
 */
export const MOST_LEVELS_TOGETHER = 600;

/** An outcome of plays as mean of the situation + call + answer + their interaction + offense + defense + game + rest. */
export class FittedOutcome {
  readonly #cells: CellPlaces;
  readonly #model: MixedModel;
  readonly #players: PlayerEffects | null;
  readonly #firstOfPlayers: number;

  constructor(
    readonly coded: CodedPlays,
    readonly means: SituationMeans,
    readonly variances: OutcomeVariances,
    parts: {
      readonly cells: CellPlaces;
      readonly model: MixedModel;
      /** Null where players were fitted together with the calls. */
      readonly players: PlayerEffects | null;
    },
  ) {
    this.#cells = parts.cells;
    this.#model = parts.model;
    this.#players = parts.players;
    this.#firstOfPlayers = INTERACTION + 1;
  }

  /** Whether players and games were fitted together with the calls, and not before them. */
  get together(): boolean {
    return this.#players === null;
  }

  /** Effects that a posterior draw has to draw; what `combination` tells of. */
  get size(): number {
    return this.#model.solved.size;
  }

  /** One draw of the effects that a combination's shared part weighs; see `SolvedEquations.drawn`. */
  drawn(normals: Float64Array): Float64Array {
    return this.#model.solved.drawn(normals);
  }

  offenseEffect(player: number): number {
    if (player < 0) return 0;
    return this.#players === null
      ? this.#model.solved.effect(this.#firstOfPlayers, player)
      : (this.#players.offense[player] ?? 0);
  }

  defenseEffect(player: number): number {
    if (player < 0) return 0;
    return this.#players === null
      ? this.#model.solved.effect(this.#firstOfPlayers + 1, player)
      : (this.#players.defense[player] ?? 0);
  }

  callEffect(call: number): number {
    return this.#model.solved.effect(CALL, call);
  }

  /** Of everything but the situation. */
  get mean(): number {
    return this.#model.solved.mean;
  }

  /**
   * The weighted mean of some cells against players of the field's mean, less the mean of the situation, with its
   * posterior. A cell that was never seen counts by its call and its answer, and with the whole spread of interactions.
   */
  combination(cells: readonly WeightedCell[]): Combination {
    const parts: EffectPart[] = [];
    for (const { call, answer, weight } of cells) {
      const { answers } = this.coded;
      const seen = this.#cells.levelOf(call, answer);
      parts.push({ factor: -1, level: 0, weight });
      parts.push({ factor: CALL, level: call, weight });
      parts.push({ factor: ANSWER, level: answer, weight });
      // A place of its own below 0, so that draws of the same unseen cell agree with each other.
      parts.push({ factor: INTERACTION, level: seen < 0 ? -1 - (call * answers + answer) : seen, weight });
    }
    return this.#model.solved.combination(parts);
  }

  /** What a call by itself leads one to expect, whatever it met. */
  ofCall(call: number): Combination {
    return this.#model.solved.combination([
      { factor: -1, level: 0, weight: 1 },
      { factor: CALL, level: call, weight: 1 },
    ]);
  }

  /** What call, answer and players of a play lead one to expect beside its situation. */
  predicted(play: number): number {
    const { call, answer, offense, defense, gameSide } = this.coded;
    const [one, other, side] = [call[play] ?? -1, answer[play] ?? -1, gameSide[play] ?? -1];
    const { solved } = this.#model;
    const ofPlayers =
      this.#players === null
        ? this.offenseEffect(offense[play] ?? -1) +
          this.defenseEffect(defense[play] ?? -1) +
          solved.effect(this.#firstOfPlayers + 2, side)
        : (this.#players.byGameSide[side] ?? 0);
    const cell = this.#cells.levelOf(one, other);
    return (
      solved.mean +
      solved.effect(CALL, one) +
      solved.effect(ANSWER, other) +
      solved.effect(INTERACTION, cell) +
      ofPlayers
    );
  }

  /** Mean of a play's situation. */
  expectedOf(play: number): number {
    return expectedBySituation(this.means, this.coded.situation[play] ?? -1);
  }
}

/** Which cells of calls x answers were seen, and their place among the interaction's levels. */
export interface CellPlaces {
  readonly levels: number;
  /** -1 for one that never was. */
  levelOf(call: number, answer: number): number;
}

function cellPlaces(counts: Float64Array, answers: number): CellPlaces {
  const places = new Int32Array(counts.length).fill(-1);
  let levels = 0;
  for (let cell = 0; cell < counts.length; cell += 1) if ((counts[cell] ?? 0) > 0) places[cell] = levels++;
  return { levels, levelOf: (call, answer) => places[call * answers + answer] ?? -1 };
}

/**
 * Fits one outcome over an archive: what situation leads one to expect is taken out, and the rest divided between the
 * call, the answer, the two together, who had the ball, who defended, and the game.
 *
 * @param coded   - the archive's plays; those without call or answer take no part
 * @param outcome - one a play: expected points added, or 1 and 0 for success; UNKNOWN_POINTS where it is not known
 * @returns null where fewer than two plays can take part, all of them came to the same, or the plays there are cannot
 *   tell the parts from each other: a report goes without its answers then
 * @see decisions on answers: Henderson (1975), Biometrics 31, 423–447; Patterson & Thompson (1971), Biometrika 58, 545–554
 */
export function fitOutcome(coded: CodedPlays, outcome: Float64Array): FittedOutcome | null {
  const means = situationMeans(coded, outcome);
  const { counts, sums, squares } = cellSums(coded, outcome, means, null);
  const cells = cellPlaces(counts, coded.answers);
  const levels = 1 + coded.calls + coded.answers + 2 * coded.players + coded.gameSides;
  try {
    return levels <= MOST_LEVELS_TOGETHER
      ? fitTogether(coded, outcome, means, cells)
      : fitPlayersFirst(coded, outcome, means, cells, { counts, sums, squares });
  } catch (error) {
    if (error instanceof DomainError && NOT_TO_BE_FITTED.has(error.code)) {
      return null;
    }
    throw error;
  }
}

const NOT_TO_BE_FITTED: ReadonlySet<string> = new Set([
  'stats.undefined_statistic',
  'stats.invalid_shape',
  'stats.no_convergence',
]);

interface CellSums {
  readonly counts: Float64Array;
  readonly sums: Float64Array;
  /** Of all plays. */
  readonly squares: number;
}

/** Sums by call and answer of what is left once situation and, where given, players are taken out. */
function cellSums(
  coded: CodedPlays,
  outcome: Float64Array,
  means: SituationMeans,
  players: PlayerEffects | null,
): CellSums {
  const { call, answer, answers, calls, situation, gameSide } = coded;
  const [counts, sums] = [new Float64Array(calls * answers), new Float64Array(calls * answers)];
  let squares = 0;
  for (let play = 0; play < outcome.length; play += 1) {
    const value = outcome[play] ?? UNKNOWN_POINTS;
    const [one, other] = [call[play] ?? -1, answer[play] ?? -1];
    if (value === UNKNOWN_POINTS || one < 0 || other < 0) continue;
    const rest =
      value -
      expectedBySituation(means, situation[play] ?? -1) -
      (players === null ? 0 : (players.byGameSide[gameSide[play] ?? 0] ?? 0));
    const cell = one * answers + other;
    counts[cell] = (counts[cell] ?? 0) + 1;
    sums[cell] = (sums[cell] ?? 0) + rest;
    squares += rest * rest;
  }
  return { counts, sums, squares };
}

function fitTogether(
  coded: CodedPlays,
  outcome: Float64Array,
  means: SituationMeans,
  cells: CellPlaces,
): FittedOutcome {
  const { call, answer, answers, calls, gameSide, gameSides, offense, defense, players, situation } = coded;
  const places = new Map<number, number>();
  const [counts, sums, squares]: [number[], number[], number[]] = [[], [], []];
  const [ofCall, ofAnswer, ofCell]: [number[], number[], number[]] = [[], [], []];
  const [ofOffense, ofDefense, ofGame]: [number[], number[], number[]] = [[], [], []];
  for (let play = 0; play < outcome.length; play += 1) {
    const value = outcome[play] ?? UNKNOWN_POINTS;
    const [one, other] = [call[play] ?? -1, answer[play] ?? -1];
    if (value === UNKNOWN_POINTS || one < 0 || other < 0) continue;
    const rest = value - expectedBySituation(means, situation[play] ?? -1);
    const key = ((gameSide[play] ?? 0) * calls + one) * answers + other;
    let place = places.get(key);
    if (place === undefined) {
      place = counts.length;
      places.set(key, place);
      counts.push(0);
      sums.push(0);
      squares.push(0);
      ofCall.push(one);
      ofAnswer.push(other);
      ofCell.push(cells.levelOf(one, other));
      ofOffense.push(offense[play] ?? -1);
      ofDefense.push(defense[play] ?? -1);
      ofGame.push(gameSide[play] ?? -1);
    }
    counts[place] = (counts[place] ?? 0) + 1;
    sums[place] = (sums[place] ?? 0) + rest;
    squares[place] = (squares[place] ?? 0) + rest * rest;
  }
  const factor = (levels: number, of: readonly number[]): RandomFactor => ({ levels, of: Int32Array.from(of) });
  const model = fitMixedModel({
    factors: [
      factor(calls, ofCall),
      factor(answers, ofAnswer),
      factor(cells.levels, ofCell),
      factor(players, ofOffense),
      factor(players, ofDefense),
      factor(gameSides, ofGame),
    ],
    variances: 'kept off 0',
    counts: Float64Array.from(counts),
    sums: Float64Array.from(sums),
    withinSquares: squares.reduce((sum, square, at) => sum + square - (sums[at] ?? 0) ** 2 / (counts[at] ?? 1), 0),
  });
  const [byCall = 0, byAnswer = 0, interaction = 0, byOffense = 0, byDefense = 0, byGame = 0] = model.variances;
  const variances: OutcomeVariances = {
    call: byCall,
    answer: byAnswer,
    interaction,
    offense: byOffense,
    defense: byDefense,
    gameSide: byGame,
    residual: model.residualVariance,
  };
  return new FittedOutcome(coded, means, variances, { cells, model, players: null });
}

function fitPlayersFirst(
  coded: CodedPlays,
  outcome: Float64Array,
  means: SituationMeans,
  cells: CellPlaces,
  raw: CellSums,
): FittedOutcome {
  const players = playerEffects(coded, outcome, means, raw.counts, raw.sums);
  const { counts, sums, squares } = cellSums(coded, outcome, means, players);
  const seen = Int32Array.from(counts.keys()).filter((cell) => (counts[cell] ?? 0) > 0);
  const ownSquares = seen.reduce((sum, cell) => sum + (sums[cell] ?? 0) ** 2 / (counts[cell] ?? 1), 0);
  const model = fitMixedModel({
    factors: [
      { levels: coded.calls, of: seen.map((cell) => Math.floor(cell / coded.answers)) },
      { levels: coded.answers, of: seen.map((cell) => cell % coded.answers) },
      { levels: cells.levels, of: Int32Array.from(seen.keys()) },
    ],
    variances: 'kept off 0',
    counts: Float64Array.from(seen, (cell) => counts[cell] ?? 0),
    sums: Float64Array.from(seen, (cell) => sums[cell] ?? 0),
    withinSquares: Math.max(0, squares - ownSquares),
  });
  const [byCall = 0, byAnswer = 0, interaction = 0] = model.variances;
  const variances: OutcomeVariances = {
    call: byCall,
    answer: byAnswer,
    interaction,
    offense: players.offenseVariance,
    defense: players.defenseVariance,
    gameSide: players.gameVariance,
    residual: model.residualVariance,
  };
  return new FittedOutcome(coded, means, variances, { cells, model, players });
}
