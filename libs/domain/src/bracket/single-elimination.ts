import { elementAt } from '../statistics/element-at.js';
import { assertCount } from '../statistics/guards.js';
import type { Bracket, Source } from './bracket-shape.js';
import { placesFor, seedingOrder } from './seeding-order.js';
import { withoutByes, type DraftMatch, type DraftSource } from './without-byes.js';

export const MOST_ENTRANTS = 4096;

/** Games of a match in a round (1 the first), of so many rounds. */
export type BestOf = (round: number, rounds: number) => number;

export interface SingleElimination {
  readonly thirdPlace?: boolean;
  readonly bestOf?: BestOf;
}

export const SINGLE_GAME: BestOf = () => 1;

/** Entrants in the order of their seeds, the first seed first. */
export function entrantsBySeed(entrants: number): Source[] {
  return Array.from({ length: entrants }, (_, entrant) => ({ from: 'entrant', entrant }));
}

/**
 * Single elimination in the standard order of seeds; the best seeds go without a first match where places are left.
 *
 * @param entrants - how many, 2 to 4,096
 * @returns entrants - 1 matches, one more with a match for the third place (from four entrants on)
 * @throws DomainError `stats.invalid_count`
 */
export function singleElimination(entrants: number, options: SingleElimination = {}): Bracket {
  assertCount('entrants', entrants, { min: 2, max: MOST_ENTRANTS });
  return { entrants, matches: withoutByes(eliminationDrafts(entrantsBySeed(entrants), options)) };
}

/** The matches of a full bracket over entries that are seeded in this order; each after those that feed it. */
export function eliminationDrafts(
  entries: readonly Source[],
  { thirdPlace = false, bestOf = SINGLE_GAME }: SingleElimination,
): DraftMatch[] {
  const places = placesFor(entries.length);
  const rounds = Math.log2(places);
  const drafts: DraftMatch[] = [];
  let sides = seedingOrder(places).map((seed): DraftSource => entries[seed - 1] ?? { from: 'bye' });
  for (let round = 1; round <= rounds; round += 1) {
    const winners: DraftSource[] = [];
    for (let at = 0; at < sides.length; at += 2) {
      winners.push({ from: 'winner', match: drafts.length });
      drafts.push({
        stage: 'main',
        round,
        position: at / 2 + 1,
        bestOf: bestOf(round, rounds),
        home: elementAt(sides, at),
        away: elementAt(sides, at + 1),
      });
    }
    sides = winners;
  }
  if (thirdPlace && rounds > 1) {
    const [first, second] = [drafts.length - 3, drafts.length - 2];
    drafts.push({
      stage: 'third place',
      round: 1,
      position: 1,
      bestOf: bestOf(rounds, rounds),
      home: { from: 'loser', match: first },
      away: { from: 'loser', match: second },
    });
  }
  return drafts;
}
