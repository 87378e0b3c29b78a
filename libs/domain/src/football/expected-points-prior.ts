import { firstAndTenPoints, firstAndTenPointsAfterLosingTheBall } from './expected-points.js';
import { DISTANCE_BUCKETS, STRIP_MIDDLES } from './expected-points-states.js';

/** Chance that a series is kept alive from each bucket, in the order of DISTANCE_BUCKETS. Common practice, no source. */
const KEPT_ALIVE = [
  0.67,
  0.8,
  0.5,
  ...[0.87, 0.74, 0.58, 0.42], // second down
  ...[0.68, 0.5, 0.33, 0.18], // third down
  ...[0.3, 0.1, 0.05, 0.02], // fourth down: mostly kicked, so that few are kept alive
];

const TOUCHDOWN = 7;
const FIELD_GOAL = 3;
/** From here on in a kick at goal is usual. Common practice, no source. */
const FIELD_GOAL_RANGE = 37;
const NET_PUNT_YARDS = 38;
const TOUCHBACK_SPOT = 20;

/**
 * What each state is worth before the archive has spoken: at first and ten, and at first and goal, exactly the published
 * table; elsewhere the table moved by what a plain model of one series says of the down and distance (kept alive, or
 * kicked away). The model's figures are common practice, no source: they only decide what a thin archive is pulled to,
 * and only by their difference from first and ten.
 *
 * @returns points for the side with the ball, one a state
 * @see Carter and Machol (1971), Operations Research 19, 541-544, Table I
 */
export function priorPoints(): Float64Array {
  return Float64Array.from(
    DISTANCE_BUCKETS.flatMap(({ typicalDistance }, bucket) =>
      STRIP_MIDDLES.map((yardsToGoal) => {
        const usual = seriesPoints(0, 10, yardsToGoal);
        return firstAndTenPoints(yardsToGoal) + seriesPoints(bucket, typicalDistance, yardsToGoal) - usual;
      }),
    ),
  );
}

function seriesPoints(bucket: number, distance: number, yardsToGoal: number): number {
  const alive = KEPT_ALIVE[bucket] ?? 0;
  const keptAt = yardsToGoal - distance;
  const kept = keptAt <= 0 ? TOUCHDOWN : firstAndTenPoints(keptAt);
  return alive * kept + (1 - alive) * kickPoints(yardsToGoal);
}

function kickPoints(yardsToGoal: number): number {
  if (yardsToGoal > FIELD_GOAL_RANGE) {
    const downedAt = Math.max(TOUCHBACK_SPOT, yardsToGoal - NET_PUNT_YARDS);
    return firstAndTenPointsAfterLosingTheBall(downedAt);
  }
  // From nearly sure at the goal line to even at the edge of the range.
  const good = 0.97 - (0.47 * yardsToGoal) / FIELD_GOAL_RANGE;
  return good * FIELD_GOAL + (1 - good) * firstAndTenPointsAfterLosingTheBall(yardsToGoal);
}
