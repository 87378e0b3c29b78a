import { DomainError } from '../domain-error.js';
import { assertFinite, assertOpenUnit, assertPositive, assertUnit } from '../statistics/guards.js';
import { dampening, NEWCOMER, POINTS_A_UNIT, type Rating } from './rating.js';

/** One game of a rating period, from the rated player's side. */
export interface RatedGame {
  /** As the opponent stood before the period. */
  readonly opponent: Rating;
  /** 1 won, 0.5 drawn, 0 lost. */
  readonly score: number;
}

/** How freely volatility may move: from 0.3 to 1.2 in Glickman (2013), whose example has 0.5. */
const VOLATILITY_CHANGE = 0.5;
const TOLERANCE = 1e-6;
const MOST_STEPS = 100;

/**
 * A player's rating after one rating period. All games of a period count at once and against the opponents as they stood
 * before it, so the order in a period does not matter. Who did not play only becomes less certain.
 *
 * @param before - rating, deviation (> 0) and volatility (in (0, 1)) before the period
 * @param games  - all games of the period, scores in [0, 1]
 * @param change - how freely volatility may move, > 0; 0.5 where nothing is said
 * @throws DomainError `stats.invalid_number`, `stats.invalid_probability`; `stats.no_convergence` after 100 steps of the
 *   search for the volatility, whose tolerance is 10⁻⁶
 * @see Glickman (2013), Example of the Glicko-2 system, steps 2 to 8
 */
export function ratedPeriod(before: Rating, games: readonly RatedGame[], change = VOLATILITY_CHANGE): Rating {
  assertRating(before);
  assertPositive('change', change);
  const strength = (before.rating - NEWCOMER.rating) / POINTS_A_UNIT;
  const variance = (before.deviation / POINTS_A_UNIT) ** 2;
  if (games.length === 0) {
    return { ...before, deviation: POINTS_A_UNIT * Math.sqrt(variance + before.volatility ** 2) };
  }

  let information = 0;
  let surplus = 0;
  for (const { opponent, score } of games) {
    assertRating(opponent);
    assertUnit('score', score);
    const weight = dampening((opponent.deviation / POINTS_A_UNIT) ** 2);
    const expected = 1 / (1 + Math.exp(-weight * (strength - (opponent.rating - NEWCOMER.rating) / POINTS_A_UNIT)));
    information += weight ** 2 * expected * (1 - expected);
    surplus += weight * (score - expected);
  }
  const volatility = newVolatility({
    volatility: before.volatility,
    variance,
    gamesVariance: 1 / information,
    improvement: surplus / information,
    change,
  });
  const after = 1 / (1 / (variance + volatility ** 2) + information);
  return {
    rating: NEWCOMER.rating + POINTS_A_UNIT * (strength + after * surplus),
    deviation: POINTS_A_UNIT * Math.sqrt(after),
    volatility,
  };
}

interface VolatilitySearch {
  readonly volatility: number;
  readonly variance: number;
  readonly gamesVariance: number;
  readonly improvement: number;
  readonly change: number;
}

/** Step 5: the root of f by the Illinois variant of regula falsi, on the logarithm of the squared volatility. */
function newVolatility({ volatility, variance, gamesVariance, improvement, change }: VolatilitySearch): number {
  const start = Math.log(volatility ** 2);
  const surprise = improvement ** 2;
  const slope = (x: number): number => {
    const square = Math.exp(x);
    const total = variance + gamesVariance + square;
    return (square * (surprise - total)) / (2 * total ** 2) - (x - start) / change ** 2;
  };
  let low = start;
  let high = Math.log(surprise - variance - gamesVariance);
  if (surprise <= variance + gamesVariance) {
    let steps = 1;
    while (slope(start - steps * change) < 0) steps += 1;
    high = start - steps * change;
  }
  let [atLow, atHigh] = [slope(low), slope(high)];
  for (let step = 0; step < MOST_STEPS; step += 1) {
    if (Math.abs(high - low) <= TOLERANCE) return Math.exp(low / 2);
    const between = low + ((low - high) * atLow) / (atHigh - atLow);
    const atBetween = slope(between);
    if (atBetween * atHigh <= 0) {
      low = high;
      atLow = atHigh;
    } else {
      atLow /= 2;
    }
    high = between;
    atHigh = atBetween;
  }
  throw new DomainError('stats.no_convergence', `volatility not found in ${MOST_STEPS} steps`, { volatility });
}

function assertRating({ rating, deviation, volatility }: Rating): void {
  assertFinite('rating', rating);
  assertPositive('deviation', deviation);
  assertOpenUnit('volatility', volatility);
}
