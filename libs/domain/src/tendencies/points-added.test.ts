import { UNKNOWN_POINTS } from '../football/expected-points-added.js';
import { studentQuantile } from '../statistics/student-quantile.js';
import { chartedFacts, times } from './charted-rows.js';
import { pointsAddedOf, pointTallies, type PointsAdded } from './points-added.js';

const RUN = { snapResult: 'snapResult.rushed' };

/** Games of runs that added these points each. */
function meanOf(...games: readonly (readonly number[])[]): PointsAdded | null {
  const facts = chartedFacts(...games.map((points) => times(points.length, RUN)));
  const places = Int32Array.from({ length: facts.plays.count }, (_, play) => play);
  const withPoints = { ...facts, pointsAdded: Float64Array.from(games.flat()) };
  return pointsAddedOf(pointTallies(withPoints, places, new Int16Array(places.length))[0], 0.9);
}

it("is the mean with Student's interval where games are alike", () => {
  const found = meanOf([1, -1, 2, 0], [1, -1, 2, 0]);
  // Variance of eight plays about 0.5: 10 / 7; nothing between the games.
  const half = studentQuantile(0.9, 7) * Math.sqrt(10 / 7 / 8);
  expect(found).toMatchObject({ plays: 8, mean: 0.5 });
  expect(found?.interval?.upper).toBeCloseTo(0.5 + half, 12);
});

it('is wider where games differ more than their plays do', () => {
  const [alike, apart] = [meanOf([1, -1, 1, -1], [1, -1, 1, -1]), meanOf([1, 1, 1, 1], [-1, -1, -1, -1])];
  expect(apart?.interval?.upper).toBeGreaterThan(2 * (alike?.interval?.upper ?? 0));
});

it('takes no unknown for nothing, and shows no spread of a single play', () => {
  expect(meanOf([2, UNKNOWN_POINTS])).toEqual({ plays: 1, mean: 2, interval: null });
  expect(meanOf([UNKNOWN_POINTS])).toBeNull();
});

it('is not there where the batch carries no expected points', () => {
  const facts = chartedFacts(times(3, RUN));
  expect(pointsAddedOf(pointTallies(facts, Int32Array.of(0, 1, 2), new Int16Array(3))[0], 0.9)).toBeNull();
});
