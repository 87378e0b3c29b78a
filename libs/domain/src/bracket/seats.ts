import { elementAt } from '../statistics/element-at.js';
import { HOME, UNKNOWN, type BracketState } from './bracket-shape.js';
import type { BracketPlan, MatchesStep, PairingStep, TableStep } from './bracket-plan.js';
import { swissPairs } from './swiss-pairs.js';
import { table, type TableLine } from './table.js';

/** A bracket before its first match. */
export function emptyState({ bracket }: BracketPlan): BracketState {
  const matches = bracket.matches.length;
  return {
    seats: new Int32Array(2 * matches).fill(UNKNOWN),
    winners: new Int8Array(matches).fill(UNKNOWN),
    homeWins: new Uint8Array(matches),
    awayWins: new Uint8Array(matches),
  };
}

/**
 * Who sits where, as far as the results so far tell. A Swiss round of which a match is over stays as it was paired; any
 * other is paired anew from the table.
 *
 * @param state - winners by match, and the seats of Swiss rounds that have begun
 * @param lots  - what decides in tables when all else is equal, by entrant, the smaller first
 * @returns two seats a match, home then away; -1 where it is not known yet, and for a second final that is not needed
 */
export function seatsOf(plan: BracketPlan, state: BracketState, lots: ArrayLike<number>): Int32Array {
  const seats = plan.entered.slice();
  for (const step of plan.steps) {
    switch (step.kind) {
      case 'matches':
        seatOutcomes(plan, step, state, seats);
        break;
      case 'pairing':
        seatPairs(plan, step, state, seats, lots);
        break;
      case 'table':
        seatPlaces(plan, step, state, seats, lots);
    }
  }
  return seats;
}

/** The table of a group or of the Swiss rounds as it stands. */
export function tableOf(
  { bracket }: BracketPlan,
  { matches, entrants }: Pick<TableStep, 'matches' | 'entrants'>,
  state: Pick<BracketState, 'seats' | 'winners'>,
  lots: ArrayLike<number>,
): TableLine[] {
  return table(state, {
    entrants,
    matches,
    roundOf: (match) => elementAt(bracket.matches, match).round,
    restingScores: matches.some((match) => elementAt(bracket.matches, match).stage === 'swiss'),
    lots,
  });
}

function seatOutcomes(plan: BracketPlan, { matches }: MatchesStep, state: BracketState, seats: Int32Array): void {
  for (const match of matches) {
    const isDecider = elementAt(plan.bracket.matches, match).decider === true;
    // The unbeaten player won the first final: nobody is left to play the second.
    if (isDecider && !deciderNeeded(plan, match, state)) seats.fill(UNKNOWN, 2 * match, 2 * match + 2);
    const winner = elementAt(state.winners, match);
    if (winner === UNKNOWN) continue;
    const [home, away] = [elementAt(seats, 2 * match), elementAt(seats, 2 * match + 1)];
    const [winnerTo, loserTo] = [elementAt(plan.winnerTo, match), elementAt(plan.loserTo, match)];
    if (winnerTo !== UNKNOWN) seats[winnerTo] = winner === HOME ? home : away;
    if (loserTo !== UNKNOWN) seats[loserTo] = winner === HOME ? away : home;
  }
}

/** Whether a second final is to be played; undecided counts as needed. */
export function deciderNeeded({ bracket }: BracketPlan, match: number, { winners }: BracketState): boolean {
  const { home } = elementAt(bracket.matches, match);
  return home.from !== 'winner' || elementAt(winners, home.match) !== HOME;
}

function seatPairs(
  plan: BracketPlan,
  step: PairingStep,
  state: BracketState,
  seats: Int32Array,
  lots: ArrayLike<number>,
): void {
  if (step.matches.some((match) => begun(state, match))) {
    for (const match of step.matches) {
      seats[2 * match] = elementAt(state.seats, 2 * match);
      seats[2 * match + 1] = elementAt(state.seats, 2 * match + 1);
    }
    return;
  }
  if (step.before.some((match) => elementAt(state.winners, match) === UNKNOWN)) return;
  const standing = tableOf(plan, { ...step, matches: step.before }, { ...state, seats }, lots);
  for (const [at, [home, away]] of swissPairs(standing).pairs.entries()) {
    const match = elementAt(step.matches, at);
    seats[2 * match] = home;
    seats[2 * match + 1] = away;
  }
}

function begun({ winners, homeWins, awayWins }: BracketState, match: number): boolean {
  return elementAt(winners, match) !== UNKNOWN || elementAt(homeWins, match) + elementAt(awayWins, match) > 0;
}

function seatPlaces(
  plan: BracketPlan,
  step: TableStep,
  state: BracketState,
  seats: Int32Array,
  lots: ArrayLike<number>,
): void {
  if (step.seats.length === 0 || step.matches.some((match) => elementAt(state.winners, match) === UNKNOWN)) return;
  const standing = tableOf(plan, step, { ...state, seats }, lots);
  for (const { seat, place } of step.seats) seats[seat] = elementAt(standing, place - 1).entrant;
}
