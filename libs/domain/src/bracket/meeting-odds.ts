import type { Rating } from '../ratings/rating.js';
import type { BracketPlan } from './bracket-plan.js';
import type { BracketState } from './bracket-shape.js';
import { bracketOrder, exactOdds, isSingleElimination } from './exact-odds.js';
import type { MeetingOdds } from './odds-shape.js';
import { simulatedOdds } from './simulated-odds.js';
import { winChances, type MatchUpOverride } from './win-chances.js';

export interface OddsQuestion {
  readonly plan: BracketPlan;
  /** With seats as `seatsOf` gives them. */
  readonly state: BracketState;
  /** One an entrant. */
  readonly ratings: readonly Pick<Rating, 'rating' | 'deviation'>[];
  readonly overrides: readonly MatchUpOverride[];
  /** The entrant whose meetings are asked for, or null. */
  readonly player: number | null;
  /**
   * What is not known of the ratings: spread over each match by itself, or drawn once for a whole event, so that who is
   * underrated is so in all of its matches. The second is always simulated.
   */
  readonly uncertainty: 'each match' | 'whole event';
  readonly events: number;
  readonly seed: number;
}

/** The odds of an event from here on: exact for single elimination, simulated for everything else. */
export function meetingOdds(question: OddsQuestion): MeetingOdds {
  const { plan, state, ratings, overrides, player, uncertainty, events, seed } = question;
  if (uncertainty === 'each match' && isSingleElimination(plan.bracket)) {
    return exactOdds(plan, state, winChances(ratings, overrides, bracketOrder(plan)), player);
  }
  const chances = winChances(ratings, overrides);
  const { entrants } = plan.bracket;
  const setByHand = new Set(
    overrides.flatMap(({ entrant, opponent }) => [entrant * entrants + opponent, opponent * entrants + entrant]),
  );
  const strengths = uncertainty === 'whole event' ? { strengths: { ratings, setByHand } } : {};
  return simulatedOdds({ plan, state, chances, player, simulation: { events, seed, ...strengths } });
}

/** Standard error of a simulated probability; null where it is exact. */
export function standardError(probability: number, { simulatedEvents }: MeetingOdds): number | null {
  return simulatedEvents === null ? null : Math.sqrt((probability * (1 - probability)) / simulatedEvents);
}
