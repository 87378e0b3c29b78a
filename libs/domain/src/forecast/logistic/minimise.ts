/** A function to minimise: writes its gradient at `at` into `gradient` and returns its value. */
export type Objective = (at: Float64Array, gradient: Float64Array) => number;

const MEMORY = 8;
const LEAST_DECREASE = 1e-4;
const MOST_HALVINGS = 30;

/**
 * Limited-memory BFGS with step halving until the sufficient decrease of Armijo. For smooth convex functions of many
 * variables.
 *
 * @param start     - changed in place to where it ends
 * @param tolerance - ends when a step improves the value by less than this share of it
 * @param steps     - most steps
 * @returns the value reached
 * @see Liu & Nocedal (1989), Math. Program. 45, 503–528
 */
export function minimise(objective: Objective, start: Float64Array, tolerance: number, steps: number): number {
  const size = start.length;
  let gradient = new Float64Array(size);
  let value = objective(start, gradient);
  const moves: Float64Array[] = [];
  const turns: Float64Array[] = [];
  const inverse: number[] = [];
  const direction = new Float64Array(size);
  const tried = new Float64Array(size);
  let next = new Float64Array(size);
  for (let step = 0; step < steps; step += 1) {
    direction.set(gradient);
    const share = new Array<number>(moves.length).fill(0);
    for (let at = moves.length - 1; at >= 0; at -= 1) {
      const [move, turn] = [moves[at] ?? direction, turns[at] ?? direction];
      share[at] = (inverse[at] ?? 0) * dot(move, direction);
      addScaled(direction, -(share[at] ?? 0), turn);
    }
    const [lastMove, lastTurn] = [moves.at(-1), turns.at(-1)];
    const scale =
      lastMove === undefined || lastTurn === undefined
        ? 1 / Math.max(1, Math.sqrt(dot(gradient, gradient)))
        : dot(lastMove, lastTurn) / dot(lastTurn, lastTurn);
    for (let at = 0; at < size; at += 1) direction[at] = (direction[at] ?? 0) * scale;
    for (let at = 0; at < moves.length; at += 1) {
      const [move, turn] = [moves[at] ?? direction, turns[at] ?? direction];
      addScaled(direction, (share[at] ?? 0) - (inverse[at] ?? 0) * dot(turn, direction), move);
    }
    const slope = -dot(gradient, direction);
    if (slope >= 0) break;
    let length = 1;
    let reached = value;
    for (let halving = 0; halving < MOST_HALVINGS; halving += 1, length /= 2) {
      for (let at = 0; at < size; at += 1) tried[at] = (start[at] ?? 0) - length * (direction[at] ?? 0);
      reached = objective(tried, next);
      if (reached <= value + LEAST_DECREASE * length * slope) break;
    }
    if (!(reached < value)) break;
    const move = new Float64Array(size);
    const turn = new Float64Array(size);
    for (let at = 0; at < size; at += 1) {
      move[at] = (tried[at] ?? 0) - (start[at] ?? 0);
      turn[at] = (next[at] ?? 0) - (gradient[at] ?? 0);
    }
    const curvature = dot(move, turn);
    if (curvature > 1e-12) {
      moves.push(move);
      turns.push(turn);
      inverse.push(1 / curvature);
      if (moves.length > MEMORY) {
        moves.shift();
        turns.shift();
        inverse.shift();
      }
    }
    const gained = value - reached;
    start.set(tried);
    [gradient, next] = [next, gradient];
    value = reached;
    if (gained <= tolerance * Math.abs(value)) break;
  }
  return value;
}

function dot(first: Float64Array, second: Float64Array): number {
  let sum = 0;
  for (let at = 0; at < first.length; at += 1) sum += (first[at] ?? 0) * (second[at] ?? 0);
  return sum;
}

function addScaled(to: Float64Array, factor: number, from: Float64Array): void {
  for (let at = 0; at < to.length; at += 1) to[at] = (to[at] ?? 0) + factor * (from[at] ?? 0);
}
