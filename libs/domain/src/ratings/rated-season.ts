import { elementAt } from '../statistics/element-at.js';
import { assertCount } from '../statistics/guards.js';
import { ratedPeriod, type RatedGame } from './glicko2.js';
import { NEWCOMER, type Rating } from './rating.js';

/** A game between two of the rated players, by their places. */
export interface SeasonGame {
  readonly home: number;
  readonly away: number;
  /** Of the home player: 1 won, 0.5 drawn, 0 lost. */
  readonly homeScore: number;
}

/**
 * Ratings of all players after a series of rating periods, everybody a newcomer before the first.
 *
 * @param players - how many there are, integer ≥ 0
 * @param periods - games of each period, the earliest period first; a period is as short as an event
 * @returns one rating a player
 * @throws DomainError `stats.invalid_count` for a player that is not there
 * @see Glickman (2013): a system works best with 10 to 15 games a player and period; events are shorter, and ratings of
 *   few games stay uncertain, which their deviation says
 */
export function ratedSeason(players: number, periods: readonly (readonly SeasonGame[])[]): Rating[] {
  assertCount('players', players, { min: 0 });
  let ratings = new Array<Rating>(players).fill(NEWCOMER);
  for (const games of periods) {
    const played = ratings.map((): RatedGame[] => []);
    for (const { home, away, homeScore } of games) {
      assertCount('home', home, { min: 0, max: players - 1 });
      assertCount('away', away, { min: 0, max: players - 1 });
      elementAt(played, home).push({ opponent: elementAt(ratings, away), score: homeScore });
      elementAt(played, away).push({ opponent: elementAt(ratings, home), score: 1 - homeScore });
    }
    const before = ratings;
    ratings = before.map((rating, player) => {
      const after = ratedPeriod(rating, elementAt(played, player));
      // What is known of somebody never falls below what is known of a newcomer.
      return { ...after, deviation: Math.min(after.deviation, NEWCOMER.deviation) };
    });
  }
  return ratings;
}
