import { planBracket, type BracketPlan } from '#domain/bracket/bracket-plan.js';
import {
  AWAY,
  HOME,
  UNKNOWN,
  type BracketMatch,
  type BracketState,
  type Source,
} from '#domain/bracket/bracket-shape.js';
import { seatsOf } from '#domain/bracket/seats.js';
import { ApiError, type FieldProblem } from '../../common/problems.js';
import { asApiError } from './bracket-errors.js';
import type { BracketEntrant, LinkedMatch, StoredSource } from './brackets.repository.js';

/** An event as the domain plays it; matches and entrants stand in the order of its numbers. */
export interface EventBracket {
  readonly plan: BracketPlan;
  readonly state: BracketState;
  readonly matches: readonly LinkedMatch[];
  readonly entrants: readonly BracketEntrant[];
  /** What decides in tables when all else is equal: the better seed. */
  readonly lots: readonly number[];
}

/**
 * The bracket that the stored matches make. Where no match says where its players come from, they come from the round
 * before: places 2p - 1 and 2p lead to place p; a match that has players and none before it was entered by hand.
 *
 * @throws ApiError `bracket.incomplete` when sides are fed by nothing or results do not follow from each other,
 *   `bracket.invalid` as `bracketProblems` finds
 */
export function eventBracket(matches: readonly LinkedMatch[], entrants: readonly BracketEntrant[]): EventBracket {
  if (matches.length === 0) throw new ApiError('bracket.incomplete', 'the event has no matches');
  const sources = sidesOf(matches);
  const playing = playersOf(sources, entrants);
  const numbers = new Map(playing.map(({ id }, number) => [id, number]));
  const drafts = matches.map(({ stage, round, position, bestOf, decider }, at): BracketMatch => {
    const [home, away] = (sources[at] ?? []).map((side) =>
      side.from === 'row' ? { from: 'entrant' as const, entrant: numbers.get(side.entrantId) ?? UNKNOWN } : side,
    );
    if (home === undefined || away === undefined) throw new Error('a match has two sides');
    return { stage, round, position, bestOf, decider, home, away };
  });
  const plan = planned(() => planBracket({ entrants: playing.length, matches: drafts }));
  const seat = (entrantId: string | null): number =>
    entrantId === null ? UNKNOWN : (numbers.get(entrantId) ?? UNKNOWN);
  const state = {
    seats: Int32Array.from(
      matches.flatMap(({ homeEntrantId, awayEntrantId }) => [seat(homeEntrantId), seat(awayEntrantId)]),
    ),
    winners: Int8Array.from(matches, ({ winnerEntrantId, homeEntrantId }) =>
      winnerEntrantId === null ? UNKNOWN : winnerEntrantId === homeEntrantId ? HOME : AWAY,
    ),
    homeWins: Uint8Array.from(matches, ({ homeWins }) => homeWins ?? 0),
    awayWins: Uint8Array.from(matches, ({ awayWins }) => awayWins ?? 0),
  };
  const lots = [...playing.keys()];
  const seats = seatsOf(plan, state, lots);
  requireFollowing(matches, seats, state.winners, seat);
  return { plan, state: { ...state, seats }, matches, entrants: playing, lots };
}

type Side = Exclude<Source, { readonly from: 'entrant' }> | { readonly from: 'row'; readonly entrantId: string };

export function addressOf({ stage, round, position }: Pick<LinkedMatch, 'stage' | 'round' | 'position'>): string {
  return `${stage}, round ${round}, position ${position}`;
}

function sidesOf(matches: readonly LinkedMatch[]): Side[][] {
  const byAddress = new Map(matches.map((match, at) => [addressOf(match), at]));
  const linked = matches.some(
    ({ stage, homeSource, awaySource }) => stage !== 'main' || (homeSource ?? awaySource) !== null,
  );
  const errors: FieldProblem[] = [];
  const sides = matches.map((match) => {
    const stored = [match.homeSource, match.awaySource];
    const seated = [match.homeEntrantId, match.awayEntrantId];
    const before = linked ? [] : feeders(match, matches, byAddress);
    return [0, 1].flatMap((side): Side[] => {
      const [source, entrantId, feeder] = [stored[side] ?? null, seated[side] ?? null, before[side]];
      const found = source === null ? null : linkedSide(source, byAddress);
      if (found !== null) return [found];
      if (source === null && feeder !== undefined) return [{ from: 'winner', match: feeder }];
      if (source === null && entrantId !== null) return [{ from: 'row', entrantId }];
      const field = `${addressOf(match)}, ${side === 0 ? 'home' : 'away'}`;
      errors.push({
        field,
        found: source === null ? '' : JSON.stringify(source),
        expected: 'an entrant or where one comes from',
      });
      return [];
    });
  });
  if (errors.length > 0)
    throw new ApiError('bracket.incomplete', 'some sides of matches are fed by nothing', { errors });
  return sides;
}

/** The matches of the round before that lead here, on the sides where their winners sit. */
function feeders(
  { stage, round, position, homeEntrantId, awayEntrantId }: LinkedMatch,
  matches: readonly LinkedMatch[],
  byAddress: ReadonlyMap<string, number>,
): (number | undefined)[] {
  const at = [2 * position - 1, 2 * position].map((place) =>
    byAddress.get(addressOf({ stage, round: round - 1, position: place })),
  );
  const [upper, lower] = at.map((match) => (match === undefined ? null : (matches[match]?.winnerEntrantId ?? null)));
  const exchanged =
    (upper !== null && upper === awayEntrantId) || (lower !== null && lower === homeEntrantId) ? [...at].reverse() : at;
  // Somebody who sits where no winner of the round before belongs was entered by hand.
  return exchanged.map((match, side) => {
    const seated = side === 0 ? homeEntrantId : awayEntrantId;
    const winner = match === undefined ? null : (matches[match]?.winnerEntrantId ?? null);
    return seated === null || seated === winner ? match : undefined;
  });
}

function linkedSide(source: StoredSource, byAddress: ReadonlyMap<string, number>): Side | null {
  if (source.from === 'pairing' || source.from === 'place') return source;
  const match = byAddress.get(addressOf(source));
  return match === undefined ? null : { from: source.from, match };
}

/** By seed, those without one last: all where rounds are paired as they come, else those who were put into a match. */
function playersOf(sides: readonly Side[][], entrants: readonly BracketEntrant[]): BracketEntrant[] {
  const inOrder = [...entrants].sort(
    (one, other) => (one.seed ?? Infinity) - (other.seed ?? Infinity) || (one.id < other.id ? -1 : 1),
  );
  if (sides.flat().some(({ from }) => from === 'pairing')) return inOrder;
  const placed = new Set(sides.flat().flatMap((side) => (side.from === 'row' ? [side.entrantId] : [])));
  return inOrder.filter(({ id }) => placed.has(id));
}

function requireFollowing(
  matches: readonly LinkedMatch[],
  seats: Int32Array,
  winners: Int8Array,
  seat: (entrantId: string | null) => number,
): void {
  const errors = matches.flatMap((match, at): FieldProblem[] => {
    const winner = winners[at] ?? UNKNOWN;
    if (winner === UNKNOWN || seats[2 * at + winner] === seat(match.winnerEntrantId)) return [];
    return [
      {
        field: addressOf(match),
        found: match.winnerEntrantId ?? '',
        expected: 'a winner who comes there by the results before',
      },
    ];
  });
  if (errors.length > 0) {
    throw new ApiError('bracket.incomplete', 'some results do not follow from those before', { errors });
  }
}

function planned<Result>(plan: () => Result): Result {
  try {
    return plan();
  } catch (error) {
    throw asApiError(error, []);
  }
}
