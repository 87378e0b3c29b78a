import { clopperPearsonInterval } from '#domain/statistics/clopper-pearson-interval.js';
import { trendFigures, type TrendFigures } from '#domain/trends/testing/trend-figures.js';

const LEAGUES = { nothing: 300, planted: 100, heavy: 100 };
const FALSE_REPORTS_BOUND = 0.12;
const NOTHING = { adopters: [0, 0, 0], taken: 0, heavyUser: false };

/**
 * Trends on leagues with known truth: 24 players, three events of 16 of them, plans a game. Prints how often something
 * is found that is not there, by players as clusters and by plays as if each stood alone; how often a call is found that
 * spreads; how often that of one heavy user is. The seeds are fixed, and none is the finder's.
 *
 * @returns whether every stated target was met
 */
export function calibrateTrends(): boolean {
  console.log('Trends, leagues of 24 players over three events');
  const nothing = trendFigures(NOTHING, LEAGUES.nothing, 1_000_000);
  const { upper } = clopperPearsonInterval(nothing.others, nothing.leagues, 0.9);
  const met = upper <= FALSE_REPORTS_BOUND;
  console.log(
    `nothing planted: ${of(nothing, 'others')} find anything (upper 95 % bound ${percent(upper)}, target at most ${percent(FALSE_REPORTS_BOUND)}: ${met ? 'met' : 'missed'}); plays taken as independent ${of(nothing, 'naive')}`,
  );
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

function percent(share: number): string {
  return `${(100 * share).toFixed(1)} %`;
}
