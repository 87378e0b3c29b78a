import { DomainError } from '../domain-error.js';
import { elementAt } from '../statistics/element-at.js';
import { AWAY, HOME, UNKNOWN, type BracketState } from './bracket-shape.js';
import type { BracketPlan } from './bracket-plan.js';
import { seatsOf } from './seats.js';

export interface EnteredResult {
  /** Null: not decided, as in a match of several games that is under way, or one whose result is taken back. */
  readonly winner: 'home' | 'away' | null;
  readonly homeWins: number;
  readonly awayWins: number;
  /** The other did not play or gave up: wins need not be enough. */
  readonly forfeited: boolean;
}

export interface EnteredState {
  readonly state: BracketState;
  /** Matches whose players changed, the entered one left out. */
  readonly moved: readonly number[];
  /** Matches whose results were dropped, since they were played by others than now meet there. */
  readonly dropped: readonly number[];
}

/**
 * Enters or corrects a result, and takes the players it moves to where they now belong. A correction that would put others
 * into a match that has a result is refused with the list of those matches, unless they are to be dropped.
 *
 * @param state - with seats as `seatsOf` gives them
 * @param lots  - as in `seatsOf`
 * @param drop  - drop results that a correction breaks, and all that follow from them
 * @throws DomainError `bracket.match_not_ready` while a player of the match is not known; `bracket.result_invalid` for
 *   wins that do not fit the winner or the length of the match; `bracket.result_breaks` with `matches`
 */
export function enterResult(
  plan: BracketPlan,
  state: BracketState,
  lots: ArrayLike<number>,
  entered: { readonly match: number; readonly result: EnteredResult; readonly drop: boolean },
): EnteredState {
  const { match, result, drop } = entered;
  const known = elementAt(state.seats, 2 * match) !== UNKNOWN && elementAt(state.seats, 2 * match + 1) !== UNKNOWN;
  if (!known) throw new DomainError('bracket.match_not_ready', 'a player of the match is not known yet', { match });
  assertResult(result, elementAt(plan.bracket.matches, match).bestOf);

  const next = {
    seats: state.seats.slice(),
    winners: state.winners.slice(),
    homeWins: state.homeWins.slice(),
    awayWins: state.awayWins.slice(),
  };
  next.winners[match] = result.winner === null ? UNKNOWN : result.winner === 'home' ? HOME : AWAY;
  next.homeWins[match] = result.homeWins;
  next.awayWins[match] = result.awayWins;
  const dropped: number[] = [];
  let seats = seatsOf(plan, next, lots);
  for (;;) {
    const broken = brokenBy(state.seats, seats, next);
    if (broken.length === 0) break;
    dropped.push(...broken);
    for (const other of broken) {
      next.winners[other] = UNKNOWN;
      next.homeWins[other] = 0;
      next.awayWins[other] = 0;
    }
    seats = seatsOf(plan, next, lots);
  }
  if (dropped.length > 0 && !drop) {
    throw new DomainError('bracket.result_breaks', `${dropped.length} later results were played by others`, {
      matches: dropped,
    });
  }
  const moved = [...plan.bracket.matches.keys()].filter(
    (other) => other !== match && !sameSeats(state.seats, seats, other),
  );
  return { state: { ...next, seats }, moved, dropped };
}

function assertResult({ winner, homeWins, awayWins, forfeited }: EnteredResult, bestOf: number): void {
  const refuse = (why: string): never => {
    throw new DomainError('bracket.result_invalid', why, { winner, homeWins, awayWins, bestOf });
  };
  if (![homeWins, awayWins].every((wins) => Number.isSafeInteger(wins) && wins >= 0)) refuse('wins are counts');
  const needed = Math.ceil(bestOf / 2);
  if (Math.max(homeWins, awayWins) > needed || homeWins + awayWins > bestOf) {
    refuse(`a match of at most ${bestOf} games ends with ${needed} wins`);
  }
  if (forfeited) {
    if (winner === null) refuse('a forfeited match has a winner');
    return;
  }
  const decided = homeWins === needed ? 'home' : awayWins === needed ? 'away' : null;
  // Who won may be known without the games.
  if (homeWins + awayWins > 0 && decided !== winner) {
    refuse(
      `${homeWins} to ${awayWins} of at most ${bestOf} games ${decided === null ? 'decides nothing' : `is won by ${decided}`}`,
    );
  }
}

function brokenBy(before: Int32Array, after: Int32Array, { winners, homeWins, awayWins }: BracketState): number[] {
  return [...winners.keys()].filter(
    (match) =>
      (elementAt(winners, match) !== UNKNOWN || elementAt(homeWins, match) + elementAt(awayWins, match) > 0) &&
      !sameSeats(before, after, match),
  );
}

function sameSeats(before: Int32Array, after: Int32Array, match: number): boolean {
  return before[2 * match] === after[2 * match] && before[2 * match + 1] === after[2 * match + 1];
}
