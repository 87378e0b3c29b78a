import { elementAt } from '../../statistics/element-at.js';
import type { RandomSource } from '../../statistics/seeded-random.js';
import type { Bracket, BracketState } from '../bracket-shape.js';
import type { BracketPlan } from '../bracket-plan.js';
import { doubleElimination } from '../double-elimination.js';
import { enterResult, type EnteredState } from '../enter-result.js';
import { groupsIntoBracket } from '../groups-into-bracket.js';
import { roundRobin } from '../round-robin.js';
import { singleElimination } from '../single-elimination.js';
import { swiss } from '../swiss.js';

export function wholeBelow(random: RandomSource, limit: number): number {
  return Math.floor(random() * limit);
}

/** Any of the structures, small enough that thousands are played in a test. */
export function randomBracket(random: RandomSource): Bracket {
  const entrants = 2 + wholeBelow(random, 12);
  const bestOf = (): number => 1 + 2 * wholeBelow(random, 2);
  switch (wholeBelow(random, 6)) {
    case 0:
      return singleElimination(entrants, { thirdPlace: random() < 0.5, bestOf });
    case 1:
      return doubleElimination(entrants, { secondFinal: false, bestOf });
    case 2:
      return doubleElimination(entrants, { secondFinal: true, bestOf });
    case 3:
      return swiss(entrants, 1 + wholeBelow(random, Math.min(4, entrants - 1)), bestOf());
    case 4:
      return roundRobin(Math.min(6, entrants), bestOf());
    default: {
      const groups = 1 + wholeBelow(random, Math.floor(entrants / 2));
      const most = Math.floor(entrants / groups);
      const advance = Math.max(groups === 1 ? 2 : 1, 1 + wholeBelow(random, most));
      return groupsIntoBracket(entrants, { groups, advance, thirdPlace: random() < 0.5, groupBestOf: bestOf() });
    }
  }
}

export function lotsOf({ bracket }: BracketPlan): number[] {
  return [...Array(bracket.entrants).keys()];
}

export function isReady({ seats, winners }: BracketState, match: number): boolean {
  return elementAt(winners, match) < 0 && elementAt(seats, 2 * match) >= 0 && elementAt(seats, 2 * match + 1) >= 0;
}

/** A result that fits the length of the match. */
export function enterRandomly(
  plan: BracketPlan,
  state: BracketState,
  match: number,
  random: RandomSource,
  drop: boolean,
): EnteredState {
  const { bestOf } = elementAt(plan.bracket.matches, match);
  const needed = Math.ceil(bestOf / 2);
  const lost = wholeBelow(random, needed);
  const homeWon = random() < 0.5;
  const forfeited = random() < 0.1;
  const [won, other] = forfeited ? [0, 0] : [needed, lost];
  const result = {
    winner: homeWon ? 'home' : 'away',
    homeWins: homeWon ? won : other,
    awayWins: homeWon ? other : won,
    forfeited,
  } as const;
  return enterResult(plan, state, lotsOf(plan), { match, result, drop });
}
