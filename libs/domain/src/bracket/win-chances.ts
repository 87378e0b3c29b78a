import { elementAt } from '../statistics/element-at.js';
import { assertCount, assertOpenUnit } from '../statistics/guards.js';
import type { Rating } from '../ratings/rating.js';
import { winProbability } from '../ratings/win-probability.js';

/** What is known of the entrants' strengths, as probabilities of single games. */
export interface WinChances {
  readonly entrants: number;
  /** Probability that the row's player beats the column's; n rows of n, 8 n² bytes: 8.4 MB for 1,024 entrants. */
  readonly game: Float64Array;
  /** By entrant, the row and column. */
  readonly rowOf: Int32Array;
}

/** A match-up that somebody sets by hand. */
export interface MatchUpOverride {
  readonly entrant: number;
  readonly opponent: number;
  /** Probability that the entrant wins a game, in (0, 1). */
  readonly probability: number;
}

/**
 * Probabilities of single games from ratings, with those set by hand put over them.
 *
 * @param ratings - one an entrant
 * @param order   - entrants in the order of their rows; exact odds are quickest in `bracketOrder`, right in any
 * @throws DomainError `stats.invalid_count` for an override of nobody, `stats.invalid_probability` for one that is certain
 */
export function winChances(
  ratings: readonly Pick<Rating, 'rating' | 'deviation'>[],
  overrides: readonly MatchUpOverride[] = [],
  order: ArrayLike<number> = [...ratings.keys()],
): WinChances {
  const beats = (one: number, other: number): number =>
    winProbability(elementAt(ratings, one), elementAt(ratings, other));
  return chancesBy(ratings.length, beats, overrides, order);
}

/** The same from any rule of who beats whom; it is asked once a pair. */
export function chancesBy(
  entrants: number,
  beats: (one: number, other: number) => number,
  overrides: readonly MatchUpOverride[] = [],
  order: ArrayLike<number> = [...Array(entrants).keys()],
): WinChances {
  assertCount('entrants in order', order.length, { min: entrants, max: entrants });
  const game = new Float64Array(entrants * entrants);
  const rowOf = new Int32Array(entrants);
  for (let row = 0; row < entrants; row += 1) rowOf[elementAt(order, row)] = row;
  const set = (row: number, column: number, probability: number): void => {
    game[row * entrants + column] = probability;
    game[column * entrants + row] = 1 - probability;
  };
  for (let row = 0; row < entrants; row += 1) {
    const one = elementAt(order, row);
    for (let column = row + 1; column < entrants; column += 1) set(row, column, beats(one, elementAt(order, column)));
    game[row * entrants + row] = 0.5;
  }
  for (const { entrant, opponent, probability } of overrides) {
    assertCount('entrant', entrant, { min: 0, max: entrants - 1 });
    assertCount('opponent', opponent, { min: 0, max: entrants - 1 });
    assertOpenUnit('probability', probability);
    set(elementAt(rowOf, entrant), elementAt(rowOf, opponent), probability);
  }
  return { entrants, game, rowOf };
}
