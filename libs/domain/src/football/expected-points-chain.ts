import type { PlayColumns } from '../charting/play-columns.js';
import type { Vocabulary } from '../charting/vocabulary.js';
import { assertCount, assertPositive, assertSameLength } from '../statistics/guards.js';
import { priorPoints } from './expected-points-prior.js';
import { solveChain, type ChainSteps } from './expected-points-solve.js';
import { CHAIN_STATES, bucketOf, stateOf, stripPlace } from './expected-points-states.js';
import { STEP_ENDS, STEP_LOSES, STEP_UNKNOWN, scoringSteps } from './expected-points-steps.js';

/** Versioned, and frozen into every report made with it. */
export interface ExpectedPointsSettings {
  readonly version: number;
  /** Plays that the published table is worth in each state, > 0: the more, the slower the archive takes over. */
  readonly priorWeight: number;
}

/**
 * A state is left through the prior at every step, so that its weight counts again on the way to the score: ten plays a
 * state leave half the say to an archive of about 10,000 plays. Common practice, no source.
 */
export const DEFAULT_EXPECTED_POINTS: ExpectedPointsSettings = { version: 1, priorWeight: 10 };

/** What a down, distance and spot are worth to the side with the ball: the next score, either side's, in points. */
export class ExpectedPointsChain {
  /** Plays of the archive that the values rest on. */
  readonly plays: number;
  readonly #values: Float64Array;
  readonly #support: Float64Array;

  /**
   * @param values  - points, one a state
   * @param support - plays, one a state
   */
  constructor(plays: number, values: Float64Array, support: Float64Array) {
    this.plays = plays;
    this.#values = values;
    this.#support = support;
  }

  /**
   * @param down        - 1 to 4
   * @param distance    - whole yards to the line to gain, 1 to 99
   * @param yardsToGoal - whole yards to the goal line attacked, 1 to 99
   * @returns points, finite; negative where the other side is more likely to score next
   * @throws DomainError `stats.invalid_count`
   */
  points(down: number, distance: number, yardsToGoal: number): number {
    return this.#read(this.#values, down, distance, yardsToGoal);
  }

  /** Plays of the archive behind a value, before shrinkage; arguments as for `points`. */
  support(down: number, distance: number, yardsToGoal: number): number {
    return this.#read(this.#support, down, distance, yardsToGoal);
  }

  #read(table: Float64Array, down: number, distance: number, yardsToGoal: number): number {
    assertCount('down', down, { min: 1, max: 4 });
    assertCount('distance', distance, { min: 1, max: 99 });
    assertCount('yardsToGoal', yardsToGoal, { min: 1, max: 99 });
    const { lower, upperWeight } = stripPlace(yardsToGoal);
    const state = stateOf(bucketOf(down, distance, yardsToGoal), lower);
    return (1 - upperWeight) * (table[state] ?? 0) + upperWeight * (table[state + 1] ?? 0);
  }
}

/**
 * Fits expected points on an archive as an absorbing Markov chain over down, distance and field zone: from every state
 * the share of plays that led to each other state, to a score of either side or to the end of the half. States are drawn
 * towards the published table by `priorWeight` plays each; with no archive every value is the prior's, which at first
 * and ten is the published table. A spot counts for the two strip middles beside it by nearness.
 *
 * @param archive    - whole charts, both sides' plays, any number; see `scoringSteps` for the fields and the rules
 * @param vocabulary - by whose canonical ids the archive was gathered
 * @param settings   - weight of the prior
 * @param leaveOut   - one byte a play, 1 leaves out what followed it, as when the game is out of reach; none by default
 * @throws DomainError `stats.invalid_number`, `stats.invalid_shape`, `football.play_type_missing`
 * @see Carter and Machol (1971), Operations Research 19, 541-544; Kemeny and Snell (1960), Finite Markov Chains, ch. 3
 */
export function fitExpectedPoints(
  archive: PlayColumns,
  vocabulary: Vocabulary,
  settings: ExpectedPointsSettings,
  leaveOut: Uint8Array | null = null,
): ExpectedPointsChain {
  assertPositive('priorWeight', settings.priorWeight);
  if (leaveOut !== null) assertSameLength('leaveOut', Array.from(leaveOut), archive.count);
  const { steps, counted } = countSteps(archive, vocabulary, leaveOut);
  return new ExpectedPointsChain(counted, solveChain(steps, priorPoints(), settings.priorWeight), steps.plays);
}

function countSteps(
  archive: PlayColumns,
  vocabulary: Vocabulary,
  leaveOut: Uint8Array | null,
): { steps: ChainSteps; counted: number } {
  const { kind, points, next } = scoringSteps(archive, vocabulary);
  const downs = archive.number('down').values;
  const distances = archive.number('distance').values;
  const yardsToGoal = archive.number('yardsToGoal').values;
  const steps: ChainSteps = {
    states: CHAIN_STATES,
    plays: new Float64Array(CHAIN_STATES),
    points: new Float64Array(CHAIN_STATES),
    moves: new Float64Array(CHAIN_STATES * CHAIN_STATES),
  };
  // A mixture of at most two states: the lower one's number and the share of the next.
  const lowerState = (play: number): number => {
    const goal = yardsToGoal[play] ?? 0;
    return stateOf(bucketOf(downs[play] ?? 0, distances[play] ?? 0, goal), stripPlace(goal).lower);
  };

  let counted = 0;
  for (let play = 0; play < archive.count; play += 1) {
    if (kind[play] === STEP_UNKNOWN || leaveOut?.[play] === 1) continue;
    counted += 1;
    const from = lowerState(play);
    const fromUpper = stripPlace(yardsToGoal[play] ?? 0).upperWeight;
    const after = next[play] ?? -1;
    const ends = kind[play] === STEP_ENDS;
    const to = ends ? 0 : lowerState(after);
    const toUpper = ends ? 0 : stripPlace(yardsToGoal[after] ?? 0).upperWeight;
    const sign = kind[play] === STEP_LOSES ? -1 : 1;
    for (let side = 0; side < 2; side += 1) {
      const weight = side === 0 ? 1 - fromUpper : fromUpper;
      if (weight === 0) continue;
      const state = from + side;
      steps.plays[state] = (steps.plays[state] ?? 0) + weight;
      if (ends) {
        steps.points[state] = (steps.points[state] ?? 0) + weight * (points[play] ?? 0);
        continue;
      }
      const cell = state * CHAIN_STATES + to;
      steps.moves[cell] = (steps.moves[cell] ?? 0) + sign * weight * (1 - toUpper);
      if (toUpper > 0) steps.moves[cell + 1] = (steps.moves[cell + 1] ?? 0) + sign * weight * toUpper;
    }
  }
  return { steps, counted };
}
