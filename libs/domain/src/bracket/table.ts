import { elementAt } from '../statistics/element-at.js';
import { HOME, UNKNOWN, type BracketState } from './bracket-shape.js';

/** One line of a table. */
export interface TableLine {
  readonly entrant: number;
  /** One a win, and one for a Swiss round without an opponent. */
  readonly points: number;
  readonly met: ReadonlySet<number>;
  readonly rested: boolean;
}

interface Line {
  readonly entrant: number;
  points: number;
  readonly met: Set<number>;
  rested: boolean;
}

export interface TableQuestion {
  readonly entrants: readonly number[];
  /** A match without a winner counts for nothing. */
  readonly matches: readonly number[];
  readonly roundOf: (match: number) => number;
  /** Whether who has no match in a round that is over gets a point for it. */
  readonly restingScores: boolean;
  /** What decides when all else is equal, by entrant: the smaller goes first. */
  readonly lots: ArrayLike<number>;
}

/**
 * A table of a group or of Swiss rounds, from the first place down: by points, then by the points from the matches among
 * those who are level, then by the sum of the opponents' points (Buchholz), then by lot.
 *
 * @see FIDE Handbook C.07 for direct encounter and Buchholz (from memory); the order of the two is a setting of ours
 */
export function table(state: Pick<BracketState, 'seats' | 'winners'>, question: TableQuestion): TableLine[] {
  const { entrants, matches, roundOf, restingScores, lots } = question;
  const lines = new Map(
    entrants.map((entrant): [number, Line] => [entrant, { entrant, points: 0, met: new Set(), rested: false }]),
  );
  const beaten = new Map<number, number[]>();
  const present = new Map<number, Set<number>>();
  const unfinished = new Set<number>();
  for (const match of matches) {
    const winner = elementAt(state.winners, match);
    if (winner === UNKNOWN) {
      unfinished.add(roundOf(match));
      continue;
    }
    const [home, away] = [elementAt(state.seats, 2 * match), elementAt(state.seats, 2 * match + 1)];
    const [won, lost] = winner === HOME ? [home, away] : [away, home];
    const line = lines.get(won);
    if (line !== undefined) line.points += 1;
    line?.met.add(lost);
    lines.get(lost)?.met.add(won);
    beaten.set(won, [...(beaten.get(won) ?? []), lost]);
    const round = present.get(roundOf(match)) ?? new Set<number>();
    present.set(roundOf(match), round.add(won).add(lost));
  }
  for (const [round, players] of restingScores ? present : []) {
    // Who rests is certain when the round is over.
    if (unfinished.has(round)) continue;
    for (const line of lines.values()) {
      if (players.has(line.entrant)) continue;
      line.points += 1;
      line.rested = true;
    }
  }
  const buchholz = (line: Line): number => {
    let sum = 0;
    for (const entrant of line.met) sum += lines.get(entrant)?.points ?? 0;
    return sum;
  };
  const among = (line: Line): number =>
    (beaten.get(line.entrant) ?? []).filter((entrant) => lines.get(entrant)?.points === line.points).length;
  const keyed = [...lines.values()].map((line) => ({ line, among: among(line), buchholz: buchholz(line) }));
  keyed.sort(
    (one, other) =>
      other.line.points - one.line.points ||
      other.among - one.among ||
      other.buchholz - one.buchholz ||
      elementAt(lots, one.line.entrant) - elementAt(lots, other.line.entrant),
  );
  return keyed.map(({ line }) => line);
}
