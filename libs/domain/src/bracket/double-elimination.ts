import { elementAt } from '../statistics/element-at.js';
import { assertCount } from '../statistics/guards.js';
import type { Bracket } from './bracket-shape.js';
import { eliminationDrafts, entrantsBySeed, MOST_ENTRANTS, SINGLE_GAME, type BestOf } from './single-elimination.js';
import { withoutByes, type DraftMatch, type DraftSource } from './without-byes.js';

export interface DoubleElimination {
  /** Whether a first defeat in the final leads to a second one; without, the unbeaten player can lose it all at once. */
  readonly secondFinal: boolean;
  readonly bestOf?: BestOf;
}

/**
 * Double elimination: who loses once goes to the losers' side, who loses twice is out. Losers of each round enter the
 * losers' side in another order, so that players meet again late (common practice, no source).
 *
 * @param entrants - how many, 2 to 4,096
 * @returns 2 × entrants - 2 matches, one more with a second final (which may not be needed)
 * @throws DomainError `stats.invalid_count`
 * @see Edwards (1996), Am. Stat. 50, 27–33
 */
export function doubleElimination(entrants: number, { secondFinal, bestOf = SINGLE_GAME }: DoubleElimination): Bracket {
  assertCount('entrants', entrants, { min: 2, max: MOST_ENTRANTS });
  const drafts = eliminationDrafts(entrantsBySeed(entrants), { bestOf });
  const rounds = elementAt(drafts, drafts.length - 1).round;
  const unbeaten: DraftSource = { from: 'winner', match: drafts.length - 1 };
  const once = lastOfLosersSide(drafts, rounds, bestOf);
  const final = drafts.length;
  const games = bestOf(rounds, rounds);
  drafts.push({ stage: 'final', round: 1, position: 1, bestOf: games, home: unbeaten, away: once });
  if (secondFinal) {
    drafts.push({
      stage: 'final',
      round: 2,
      position: 1,
      bestOf: games,
      home: { from: 'winner', match: final },
      away: { from: 'loser', match: final },
      decider: true,
    });
  }
  return { entrants, matches: withoutByes(drafts) };
}

/** Adds the losers' side, two rounds for each later round of the main one, and says who comes out of it. */
function lastOfLosersSide(drafts: DraftMatch[], rounds: number, bestOf: BestOf): DraftSource {
  const main = [...drafts.keys()];
  const losersOf = (round: number): DraftSource[] =>
    main.filter((match) => elementAt(drafts, match).round === round).map((match) => ({ from: 'loser', match }));
  let round = 0;
  const play = (sides: readonly (readonly [DraftSource, DraftSource])[], mainRound: number): DraftSource[] => {
    round += 1;
    return sides.map(([home, away], at) => {
      const match = drafts.length;
      drafts.push({ stage: 'losers', round, position: at + 1, bestOf: bestOf(mainRound, rounds), home, away });
      return { from: 'winner', match };
    });
  };
  let alive = losersOf(1);
  for (let mainRound = 2; mainRound <= rounds; mainRound += 1) {
    const survivors = play(pairsOf(alive), mainRound);
    const falling = rearranged(losersOf(mainRound), mainRound);
    alive = play(
      survivors.map((survivor, at) => [elementAt(falling, at), survivor] as const),
      mainRound,
    );
  }
  return elementAt(alive, 0);
}

function pairsOf(sides: readonly DraftSource[]): (readonly [DraftSource, DraftSource])[] {
  return Array.from({ length: sides.length / 2 }, (_, at) => [elementAt(sides, 2 * at), elementAt(sides, 2 * at + 1)]);
}

/**
 * By turns reversed, with the halves exchanged, each half reversed, and as they are: of all such turns of four, the one
 * with the fewest possible meetings of players of one part of the main bracket, counted for 8 to 512 entrants.
 */
function rearranged(losers: readonly DraftSource[], round: number): DraftSource[] {
  const half = losers.length / 2;
  const [upper, lower] = [losers.slice(0, half), losers.slice(half)];
  switch (round % 4) {
    case 2:
      return [...losers].reverse();
    case 3:
      return [...lower, ...upper];
    case 0:
      return [...upper.reverse(), ...lower.reverse()];
    default:
      return [...losers];
  }
}
