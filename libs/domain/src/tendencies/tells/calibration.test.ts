import { starterVocabulary } from '../../charting/vocabulary.js';
import { clopperPearsonInterval } from '../../statistics/clopper-pearson-interval.js';
import { confoundedLeagues, nullLeagues, plantedLeagues } from './testing/tell-figures.js';

// Small runs of what the bench does at a large size. 5,000 plays of one player; seeds are these tests' own.
const VOCABULARY = starterVocabulary();
const SIZE = { games: 62, playsAGame: 80, plans: false };

/** Lower 95 % bound of a rate: a small run shows a target missed only when even this is above, or below, it. */
const atLeast = (count: number, of: number): number => clopperPearsonInterval(count, of, 0.9).lower;
const atMost = (count: number, of: number): number => clopperPearsonInterval(count, of, 0.9).upper;

it.each([false, true])('finds tells in few leagues without any (plans for each game: %s)', (plans) => {
  const leagues = 20;
  const falseReports = nullLeagues({ ...SIZE, plans, leagues, firstSeed: 10_000 }, VOCABULARY);
  console.log(`reports with a false tell, plans ${plans}: ${falseReports} of ${leagues}`);
  expect(atLeast(falseReports, leagues)).toBeLessThanOrEqual(0.12);
});

it('does not take a formation of third and long for a tell', () => {
  const leagues = 10;
  const { told, toldUnstratified } = confoundedLeagues({ ...SIZE, leagues, firstSeed: 20_000 }, VOCABULARY);
  console.log(`confounded formation told: ${told} of ${leagues}; situations not held: ${toldUnstratified}`);
  expect(told).toBe(0);
  expect(toldUnstratified).toBeGreaterThan(leagues / 2);
});

it('finds a tell of 20 points at 150 plays', () => {
  const leagues = 15;
  const size = { cuePlays: 150, points: 0.2 };
  const { found, covered } = plantedLeagues({ ...SIZE, leagues, firstSeed: 30_000 }, size, VOCABULARY);
  console.log(`found: ${found} of ${leagues}; intervals that contain the planted difference: ${covered} of ${found}`);
  expect(atMost(found, leagues)).toBeGreaterThanOrEqual(0.8);
  expect(atMost(covered, found)).toBeGreaterThanOrEqual(0.9);
});

it('lists a cue of 30 points at 40 plays among the first three leads', () => {
  const leagues = 15;
  const size = { cuePlays: 40, points: 0.3 };
  const { topThree } = plantedLeagues({ ...SIZE, leagues, firstSeed: 40_000 }, size, VOCABULARY);
  console.log(`among the first three leads: ${topThree} of ${leagues}`);
  expect(atMost(topThree, leagues)).toBeGreaterThanOrEqual(0.6);
});
