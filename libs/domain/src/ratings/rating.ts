/** How strong a player is, on the scale where 1500 is a newcomer and 400 points are odds of ten to one. */
export interface Rating {
  readonly rating: number;
  /** Standard deviation of what is known of the rating, in points, > 0. */
  readonly deviation: number;
  /** How much the true strength moves from period to period, in (0, 1). */
  readonly volatility: number;
}

/** What is assumed of somebody of whom nothing is known. Glickman (2013), step 1. */
export const NEWCOMER: Rating = { rating: 1500, deviation: 350, volatility: 0.06 };

/** One unit of the inner scale in points of the outer one: 400 / ln 10, in the digits of Glickman (2013), step 2. */
export const POINTS_A_UNIT = 173.7178;

/**
 * How much the uncertainty of an opponent takes off what a result says.
 *
 * @param variance - of the opponent's strength, on the inner scale, ≥ 0
 * @returns in (0, 1]
 * @see Glickman (2013), Example of the Glicko-2 system, step 3
 */
export function dampening(variance: number): number {
  return 1 / Math.sqrt(1 + (3 * variance) / Math.PI ** 2);
}
