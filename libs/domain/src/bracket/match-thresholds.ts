import { POINTS_A_UNIT, type Rating } from '../ratings/rating.js';
import { matchProbability } from '../ratings/win-probability.js';
import { drawNormal } from '../statistics/draw-gamma.js';
import { elementAt } from '../statistics/element-at.js';
import { seededRandom } from '../statistics/seeded-random.js';
import type { Bracket, BracketState } from './bracket-shape.js';
import type { WinChances } from './win-chances.js';

/** A probability as what a word of 32 random bits has to stay below. */
const WORD_RANGE = 2 ** 32;

export interface SharedThresholds {
  /** One table of entrants × entrants for each length of match that occurs. */
  readonly table: Float64Array;
  /** By match, where its table begins. */
  readonly offsets: Int32Array;
}

/** Whether the home player wins a match from its start: a random word below the threshold says yes. */
export function sharedThresholds({ matches }: Bracket, chances: WinChances): SharedThresholds {
  const { entrants } = chances;
  const lengths = [...new Set(matches.map(({ bestOf }) => bestOf))];
  const cells = entrants * entrants;
  const table = new Float64Array(lengths.length * cells);
  for (const [at, bestOf] of lengths.entries()) {
    for (let cell = 0; cell < cells; cell += 1) {
      const game = gameChance(chances, Math.floor(cell / entrants), cell % entrants);
      table[at * cells + cell] = WORD_RANGE * matchProbability(game, bestOf);
    }
  }
  return { table, offsets: Int32Array.from(matches, ({ bestOf }) => lengths.indexOf(bestOf) * cells) };
}

/** By match under way, the threshold from where it stands; -1 for all others. */
export function ownThresholds({ matches }: Bracket, state: BracketState, chances: WinChances): Float64Array {
  return Float64Array.from(matches, ({ bestOf }, match) => {
    const [homeWins, awayWins] = [elementAt(state.homeWins, match), elementAt(state.awayWins, match)];
    if (homeWins + awayWins === 0) return -1;
    const game = gameChance(chances, elementAt(state.seats, 2 * match), elementAt(state.seats, 2 * match + 1));
    return WORD_RANGE * matchProbability(game, bestOf, homeWins, awayWins);
  });
}

function gameChance({ entrants, game, rowOf }: WinChances, one: number, other: number): number {
  return elementAt(game, elementAt(rowOf, one) * entrants + elementAt(rowOf, other));
}

/** What is known of how strong everybody is, to be drawn from. */
export interface DrawnStrengths {
  /** One an entrant. */
  readonly ratings: readonly Pick<Rating, 'rating' | 'deviation'>[];
  /** Pairs whose chances were set by hand: entrant × entrants + opponent. */
  readonly setByHand: ReadonlySet<number>;
}

export interface StrengthDraws {
  /** Draws everybody's strength for one event, each from a normal distribution around the rating. */
  readonly draw: () => void;
  /** The threshold of a match between two at the strengths drawn last; -1 where it was set by hand. */
  readonly threshold: (match: number, home: number, away: number) => number;
}

export function strengthDraws(
  { matches, entrants }: Bracket,
  { homeWins, awayWins }: BracketState,
  { ratings, setByHand }: DrawnStrengths,
  seed: number,
): StrengthDraws {
  // A stream of its own: the words of the matches stay the same whatever is drawn here.
  const random = seededRandom(seed + 1);
  const strengths = new Float64Array(entrants);
  return {
    draw: () => {
      for (const [entrant, { rating, deviation }] of ratings.entries()) {
        strengths[entrant] = (rating + deviation * drawNormal(random)) / POINTS_A_UNIT;
      }
    },
    threshold: (match, home, away) => {
      if (setByHand.has(home * entrants + away)) return -1;
      const game = 1 / (1 + Math.exp((strengths[away] ?? 0) - (strengths[home] ?? 0)));
      const { bestOf } = elementAt(matches, match);
      return WORD_RANGE * matchProbability(game, bestOf, elementAt(homeWins, match), elementAt(awayWins, match));
    },
  };
}
