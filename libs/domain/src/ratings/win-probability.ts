import { assertCount, assertUnit } from '../statistics/guards.js';
import { dampening, POINTS_A_UNIT, type Rating } from './rating.js';

type Known = Pick<Rating, 'rating' | 'deviation'>;

/**
 * Probability that one player wins a game against another, with what is not known of both carried into it: two players of
 * whom little is known are nearer to a coin's toss than their ratings say.
 *
 * @returns in (0, 1); the two players' probabilities add up to 1
 * @see Glickman, The Glicko system (note), expected outcome: E = 1 / (1 + 10^(-g(√(RD₁² + RD₂²)) (r₁ - r₂) / 400))
 */
export function winProbability(own: Known, other: Known): number {
  const variance = (own.deviation ** 2 + other.deviation ** 2) / POINTS_A_UNIT ** 2;
  return 1 / (1 + Math.exp((-dampening(variance) * (own.rating - other.rating)) / POINTS_A_UNIT));
}

/**
 * Probability of winning a match of at most `bestOf` games from where it stands, games independent of each other.
 *
 * @param game      - probability of winning one game, in [0, 1]
 * @param bestOf    - odd integer ≥ 1; an even one is read as the next smaller odd one, since it takes as many wins
 * @param wins      - games won so far, integer ≥ 0
 * @param otherWins - games that the other won so far
 * @returns in [0, 1]; 1 or 0 where the match is decided
 * @throws DomainError `stats.invalid_probability`, `stats.invalid_count`
 * @see negative binomial: the last game is won, the lost ones fall anywhere before it (Feller 1968, vol. 1, VI.8)
 */
export function matchProbability(game: number, bestOf: number, wins = 0, otherWins = 0): number {
  assertUnit('game', game);
  assertCount('bestOf', bestOf, { min: 1 });
  assertCount('wins', wins, { min: 0 });
  assertCount('otherWins', otherWins, { min: 0 });
  const needed = Math.ceil(bestOf / 2);
  const [own, other] = [needed - wins, needed - otherWins];
  if (own <= 0) return 1;
  if (other <= 0) return 0;
  let probability = 0;
  let ways = game ** own;
  for (let lost = 0; lost < other; lost += 1) {
    probability += ways;
    ways *= ((own + lost) / (lost + 1)) * (1 - game);
  }
  return Math.min(1, probability);
}
