import { assertPositive } from '../statistics/guards.js';

/** What an archive says about the steps of a chain between states; arrays are states long, or states × states. */
export interface ChainSteps {
  readonly states: number;
  /** Plays that left each state and are known to have led somewhere; hat weights make them fractions. */
  readonly plays: Float64Array;
  /** Points scored straight from each state, summed over its plays; negative for the other side's. */
  readonly points: Float64Array;
  /**
   * Row-major: plays from the row's state to the column's, counted -1 each where the ball changed sides, since what
   * follows is then worth the opposite.
   */
  readonly moves: Float64Array;
}

/**
 * Values of the states of an absorbing chain: the expected points of the next score, either side's, with the end of a
 * half worth nothing. Each state carries `priorWeight` plays that end at its prior value, so that a state nobody played
 * from keeps the prior and the chain ends from everywhere.
 *
 * Solved by elimination without exchange of rows: each row's entries beside the diagonal add up to less than the
 * diagonal, because some weight always leaves through the prior.
 *
 * @param prior       - points, one a state
 * @param priorWeight - plays, > 0
 * @returns points for the side with the ball, one a state, finite
 * @throws DomainError `stats.invalid_number`
 * @see Kemeny and Snell (1960), Finite Markov Chains, chapter 3 (absorbing chains)
 */
export function solveChain(steps: ChainSteps, prior: Float64Array, priorWeight: number): Float64Array {
  assertPositive('priorWeight', priorWeight);
  const { states } = steps;
  const matrix = steps.moves.map((move) => -move);
  const values = new Float64Array(states);
  for (let state = 0; state < states; state += 1) {
    const diagonal = state * states + state;
    matrix[diagonal] = (matrix[diagonal] ?? 0) + (steps.plays[state] ?? 0) + priorWeight;
    values[state] = (steps.points[state] ?? 0) + priorWeight * (prior[state] ?? 0);
  }
  eliminate(matrix, values);
  substitute(matrix, values);
  return values;
}

function eliminate(matrix: Float64Array, values: Float64Array): void {
  const states = values.length;
  for (let pivot = 0; pivot < states; pivot += 1) {
    const own = matrix.subarray(pivot * states, (pivot + 1) * states);
    const head = own[pivot] ?? 1;
    for (let below = pivot + 1; below < states; below += 1) {
      const row = matrix.subarray(below * states, (below + 1) * states);
      const factor = (row[pivot] ?? 0) / head;
      if (factor === 0) continue;
      for (let column = pivot; column < states; column += 1) {
        row[column] = (row[column] ?? 0) - factor * (own[column] ?? 0);
      }
      values[below] = (values[below] ?? 0) - factor * (values[pivot] ?? 0);
    }
  }
}

function substitute(matrix: Float64Array, values: Float64Array): void {
  const states = values.length;
  for (let state = states - 1; state >= 0; state -= 1) {
    let rest = values[state] ?? 0;
    for (let column = state + 1; column < states; column += 1) {
      rest -= (matrix[state * states + column] ?? 0) * (values[column] ?? 0);
    }
    values[state] = rest / (matrix[state * states + state] ?? 1);
  }
}
