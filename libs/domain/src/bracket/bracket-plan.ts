import { DomainError } from '../domain-error.js';
import { elementAt } from '../statistics/element-at.js';
import { bracketProblems } from './bracket-problems.js';
import { UNKNOWN, type Bracket, type Stage } from './bracket-shape.js';
import { roundColumns, type RoundColumns } from './odds-shape.js';
import { isTable, matchesWhere, tableMembers } from './table-members.js';

/** A table and whom its places are given to. */
export interface TableStep {
  readonly kind: 'table';
  readonly stage: Stage;
  readonly matches: readonly number[];
  readonly entrants: readonly number[];
  /** Sides of matches that its places go to, and which place. */
  readonly seats: readonly { readonly seat: number; readonly place: number }[];
}

/** A Swiss round to be paired from the rounds before it. */
export interface PairingStep {
  readonly kind: 'pairing';
  readonly round: number;
  readonly before: readonly number[];
  readonly matches: readonly number[];
  readonly entrants: readonly number[];
}

/** Matches that can be taken one after the other. */
export interface MatchesStep {
  readonly kind: 'matches';
  readonly matches: Int32Array;
}

export type PlanStep = TableStep | PairingStep | MatchesStep;

/** A sound bracket in an order in which everything stands after what it waits for. */
export interface BracketPlan {
  readonly bracket: Bracket;
  readonly steps: readonly PlanStep[];
  /** Seat (twice the match, one more for away) that the winner and the loser of a match take; -1: none. */
  readonly winnerTo: Int32Array;
  readonly loserTo: Int32Array;
  /** Seats that entrants take from the start, -1 elsewhere. */
  readonly entered: Int32Array;
  readonly columns: RoundColumns;
  /** The match whose winner wins the event; null where a table decides. */
  readonly titleMatch: number | null;
}

/**
 * @throws DomainError `bracket.invalid` with the problems that `bracketProblems` finds
 */
export function planBracket(bracket: Bracket): BracketPlan {
  const problems = bracketProblems(bracket);
  if (problems.length > 0) {
    throw new DomainError('bracket.invalid', problems.map(({ words }) => words).join('; '), { problems });
  }
  const { matches } = bracket;
  const winnerTo = new Int32Array(matches.length).fill(UNKNOWN);
  const loserTo = new Int32Array(matches.length).fill(UNKNOWN);
  const entered = new Int32Array(2 * matches.length).fill(UNKNOWN);
  for (const [match, { home, away }] of matches.entries()) {
    for (const [side, source] of [home, away].entries()) {
      const seat = 2 * match + side;
      if (source.from === 'entrant') entered[seat] = source.entrant;
      if (source.from === 'winner') winnerTo[source.match] = seat;
      if (source.from === 'loser') loserTo[source.match] = seat;
    }
  }
  return {
    bracket,
    steps: stepsOf(bracket),
    winnerTo,
    loserTo,
    entered,
    titleMatch: titleMatchOf(bracket, winnerTo),
    columns: roundColumns(bracket),
  };
}

/** Tables before what waits for them, then matches by what feeds them: a depth-first walk that ends at the last match. */
function stepsOf(bracket: Bracket): PlanStep[] {
  const { matches } = bracket;
  const steps: PlanStep[] = [];
  const placed = new Set<number>();
  for (const stage of new Set(matches.map((match) => match.stage).filter(isTable))) {
    const members = matchesWhere(matches, ({ stage: own }) => own === stage);
    const entrants = tableMembers(bracket, stage);
    const rounds = [...new Set(members.map((match) => elementAt(matches, match).round))].sort((one, two) => one - two);
    for (const round of rounds) {
      const inRound = members.filter((match) => elementAt(matches, match).round === round);
      if (inRound.some((match) => elementAt(matches, match).home.from === 'pairing')) {
        const before = members.filter((match) => elementAt(matches, match).round < round);
        steps.push({ kind: 'pairing', round, before, matches: inRound, entrants });
      }
      steps.push({ kind: 'matches', matches: Int32Array.from(inRound) });
    }
    for (const match of members) placed.add(match);
    const seats = matches.flatMap(({ home, away }, match) =>
      [home, away].flatMap((source, side) =>
        source.from === 'place' && source.stage === stage ? [{ seat: 2 * match + side, place: source.place }] : [],
      ),
    );
    steps.push({ kind: 'table', stage, matches: members, entrants, seats });
  }
  const order: number[] = [];
  const stack = [...matches.keys()].reverse();
  for (let match = stack.pop(); match !== undefined; match = stack.pop()) {
    if (placed.has(match)) continue;
    const { home, away } = elementAt(matches, match);
    const waitsFor = [home, away].flatMap((source) =>
      (source.from === 'winner' || source.from === 'loser') && !placed.has(source.match) ? [source.match] : [],
    );
    if (waitsFor.length > 0) stack.push(match, ...waitsFor);
    else {
      placed.add(match);
      order.push(match);
    }
  }
  if (order.length > 0) steps.push({ kind: 'matches', matches: Int32Array.from(order) });
  return steps;
}

function titleMatchOf({ matches }: Bracket, winnerTo: Int32Array): number | null {
  const last = matchesWhere(matches, ({ stage }) => stage === 'main' || stage === 'final').filter(
    (match) => winnerTo[match] === UNKNOWN,
  );
  return last[0] ?? null;
}
