import { SMALL, trendFigures, type TrendFigures } from '#domain/trends/testing/trend-figures.js';
import { USUAL_SIZE } from '#domain/trends/testing/trend-league.js';
import { percent, printFalseFinds } from './support/false-finds.js';

/**
 * What is asked for is a false-discovery rate of a tenth, so about one league in ten without any trend has a false one:
 * fewer leagues than these cannot show whether that stays below the bound. Of 300 at 10 % the upper bound is 13.3 %.
 */
const LEAGUES = { nothing: 3000, planted: 100, heavy: 100 };
const SIZES = [USUAL_SIZE, { players: 12, entrants: 8, events: 3 }, { players: 24, entrants: 16, events: 6 }];
const NOTHING = { adopters: [0, 0, 0], taken: 0, heavyUser: false };

/**
 * Trends on leagues with known truth, plans a game. Prints how often something is found that is not there, by players as
 * clusters and by plays as if each stood alone, in leagues of three sizes; how often a call is found that spreads; how
 * often that of one heavy user is. The seeds are fixed, and none is the finder's.
 *
 * @returns whether every stated target was met
 */
export function calibrateTrends(): boolean {
  let met = true;
  for (const [place, size] of SIZES.entries()) {
    const nothing = trendFigures({ ...NOTHING, size }, LEAGUES.nothing, 1_000_000 + 10_000 * place);
    const words = `nothing planted, ${size.events} events of ${size.entrants} of ${size.players} players: anything found`;
    met = printFalseFinds(words, nothing.others, nothing.leagues) && met;
    console.log(
      `  plays taken as independent ${of(nothing, 'naive')}; p of ${SMALL} or less for ` +
        `${percent(nothing.small / nothing.tested, 2)} of ${nothing.tested} calls`,
    );
  }
  for (const adopters of [
    [3, 8, 14],
    [2, 9, 18],
  ]) {
    for (const taken of [0.08, 0.12, 0.2]) {
      const planted = trendFigures({ adopters, taken, heavyUser: false }, LEAGUES.planted, 2_000_000);
      console.log(
        `${adopters.join(', ')} players use it on ${percent(taken)} of their plays: found in ${of(planted, 'planted')}; something else in ${of(planted, 'others')}`,
      );
    }
  }
  const heavy = trendFigures({ ...NOTHING, heavyUser: true }, LEAGUES.heavy, 3_000_000);
  console.log(`one heavy user: found in ${of(heavy, 'heavy')}`);
  return met;
}

function of(figures: TrendFigures, which: Exclude<keyof TrendFigures, 'leagues'>): string {
  return `${figures[which]} of ${figures.leagues}`;
}
