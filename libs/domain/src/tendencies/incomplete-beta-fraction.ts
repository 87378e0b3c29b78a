// The terms needed grow with the root of the larger parameter; this covers a hundred thousand plays.
const MOST_TERMS = 2000;
const TINY = 1e-300;

/**
 * The continued fraction 1/(1 + d1/(1 + d2/(1 + ...))) of the incomplete beta function, evaluated forwards.
 *
 * @param point - in (0, 1); quick below (alpha + 1) / (alpha + beta + 2)
 * @param alpha - > 0
 * @param beta  - > 0
 * @param tolerance - of the fraction, as a part of it
 * @see Abramowitz & Stegun (1964), 26.5.8; Lentz (1976), Appl. Opt. 15, 668–671; Thompson & Barnett (1986),
 *   J. Comput. Phys. 64, 490–509 (how to step over a zero)
 */
export function incompleteBetaFraction(point: number, alpha: number, beta: number, tolerance: number): number {
  let fraction = 1;
  let above = 1;
  let below = 0;
  for (let term = 1; term <= MOST_TERMS; term += 1) {
    const half = term >> 1;
    const odd = term % 2 === 1;
    const numerator = odd ? -(alpha + half) * (alpha + beta + half) : half * (beta - half);
    const coefficient = (numerator * point) / ((alpha + term - 1) * (alpha + term));
    below = 1 / awayFromZero(1 + coefficient * below);
    above = awayFromZero(1 + coefficient / above);
    const change = above * below;
    fraction *= change;
    if (change < 1 + tolerance && change > 1 - tolerance) break;
  }
  return 1 / fraction;
}

function awayFromZero(value: number): number {
  return value < TINY && value > -TINY ? TINY : value;
}
