import { DomainError } from '../domain-error.js';

const MAXIMUM_STEPS = 200;

/**
 * Where a continuous function crosses zero between two points of opposite sign. Inverse quadratic
 * steps where the function is smooth, halving where it is not; never leaves the bracket.
 *
 * @param evaluate  - continuous on [low, high]
 * @param low       - one end of the bracket
 * @param high      - the other end; evaluate(low) and evaluate(high) differ in sign or one is 0
 * @param tolerance - wanted absolute precision of the root, > 0; relative precision stops at 4e-16.
 *                    At most 200 steps, where plain halving of any bracket here needs fewer than 70.
 * @throws DomainError `stats.no_convergence` when the ends share a sign or the steps run out
 * @see Chandrupatla (1997), Adv. Eng. Softw. 28, 145–149
 */
export function bracketedRoot(
  evaluate: (point: number) => number,
  low: number,
  high: number,
  tolerance: number,
): number {
  let newest = { at: high, value: evaluate(high) };
  let opposite = { at: low, value: evaluate(low) };
  if (newest.value === 0) return high;
  if (opposite.value === 0) return low;
  if (Number.isNaN(newest.value * opposite.value) || newest.value > 0 === opposite.value > 0) {
    throw new DomainError('stats.no_convergence', 'the bracket holds no change of sign', { low, high });
  }

  let fraction = 0.5;
  for (let step = 0; step < MAXIMUM_STEPS; step += 1) {
    const at = newest.at + fraction * (opposite.at - newest.at);
    const value = evaluate(at);
    let previous = newest;
    if (value > 0 !== newest.value > 0) {
      previous = opposite;
      opposite = newest;
    }
    newest = { at, value };

    const best = Math.abs(newest.value) < Math.abs(opposite.value) ? newest : opposite;
    const width = Math.abs(opposite.at - newest.at);
    const smallest = (2 * Number.EPSILON * Math.abs(best.at) + tolerance / 2) / width;
    if (best.value === 0 || width === 0 || smallest > 0.5) return best.at;

    fraction = Math.min(1 - smallest, Math.max(smallest, nextFraction(newest, opposite, previous)));
  }
  throw new DomainError('stats.no_convergence', `no root within ${MAXIMUM_STEPS} steps`, { low, high });
}

interface Evaluated {
  readonly at: number;
  readonly value: number;
}

function nextFraction(newest: Evaluated, opposite: Evaluated, previous: Evaluated): number {
  const place = (newest.at - opposite.at) / (previous.at - opposite.at);
  const height = (newest.value - opposite.value) / (previous.value - opposite.value);
  const inverseQuadraticIsSafe = height ** 2 < place && (1 - height) ** 2 < 1 - place;
  if (!inverseQuadraticIsSafe) return 0.5;
  return (
    (newest.value / (opposite.value - newest.value)) * (previous.value / (opposite.value - previous.value)) +
    ((previous.at - newest.at) / (opposite.at - newest.at)) *
      (newest.value / (previous.value - newest.value)) *
      (opposite.value / (previous.value - opposite.value))
  );
}
