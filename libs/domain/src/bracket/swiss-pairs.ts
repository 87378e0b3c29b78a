import { elementAt } from '../statistics/element-at.js';

/** A player before a Swiss round. */
export interface SwissPlayer {
  readonly entrant: number;
  readonly points: number;
  /** Whom this player met already. */
  readonly met: ReadonlySet<number>;
  /** Whether this player had a round without an opponent. */
  readonly rested: boolean;
}

export interface SwissRound {
  readonly pairs: readonly (readonly [home: number, away: number])[];
  /** Who has no opponent and gets a win for it; null with an even number. */
  readonly resting: number | null;
}

/** Attempts at a pairing without a rematch before one with rematches is taken. */
const MOST_ATTEMPTS = 5_000;

/**
 * Pairs a Swiss round: from the top of the table down, each with the nearest of equal points, the upper half of those
 * against the lower half; nobody meets the same opponent twice while that can be avoided, nobody rests twice.
 *
 * @param table - from the first place to the last
 * @see FIDE Handbook C.04.1 and C.04.3, the rules without those on colours
 */
export function swissPairs(table: readonly SwissPlayer[]): SwissRound {
  const resting = table.length % 2 === 0 ? null : whoRests(table);
  const players = table.filter(({ entrant }) => entrant !== resting);
  const budget = { attempts: MOST_ATTEMPTS };
  const pairs = pairUp(players, false, budget) ?? pairUp(players, true, { attempts: players.length }) ?? [];
  return { pairs, resting };
}

function whoRests(table: readonly SwissPlayer[]): number {
  const lowestFirst = [...table].reverse();
  return (lowestFirst.find(({ rested }) => !rested) ?? elementAt(lowestFirst, 0)).entrant;
}

function pairUp(
  players: readonly SwissPlayer[],
  rematches: boolean,
  budget: { attempts: number },
): (readonly [number, number])[] | null {
  const [first, ...rest] = players;
  if (first === undefined) return [];
  for (const at of partnersInOrder(first, rest)) {
    const partner = elementAt(rest, at);
    if (!rematches && first.met.has(partner.entrant)) continue;
    budget.attempts -= 1;
    if (budget.attempts < 0) return null;
    const others = pairUp(rest.toSpliced(at, 1), rematches, budget);
    if (others !== null) return [[first.entrant, partner.entrant], ...others];
  }
  return null;
}

/** Among equals the middle of the group first, then down, then up; after them the next lower ones. */
function partnersInOrder(first: SwissPlayer, rest: readonly SwissPlayer[]): number[] {
  const equals = rest.filter(({ points }) => points === first.points).length;
  const middle = Math.floor(equals / 2);
  const places = [...rest.keys()];
  return [...places.slice(middle, equals), ...places.slice(0, middle).reverse(), ...places.slice(equals)];
}
