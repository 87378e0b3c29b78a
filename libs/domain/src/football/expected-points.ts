import { DomainError } from '../domain-error.js';

export interface ExpectedPointsEntry {
  readonly yardsToGoal: number;
  /** Points, from the view of the side with the ball. */
  readonly points: number;
}

/**
 * Expected points of a first and ten, by the middle of ten strips of the field. Estimates of an era (1969), gross of the
 * kickoff that follows a score: never mixed with a table that nets it.
 *
 * @see Carter and Machol (1971), Operations Research 19, 541-544, Table I
 */
export const PUBLISHED_FIRST_AND_TEN: readonly ExpectedPointsEntry[] = [
  { yardsToGoal: 5, points: 6.041 },
  { yardsToGoal: 15, points: 4.572 },
  { yardsToGoal: 25, points: 3.681 },
  { yardsToGoal: 35, points: 3.167 },
  { yardsToGoal: 45, points: 2.392 },
  { yardsToGoal: 55, points: 1.538 },
  { yardsToGoal: 65, points: 0.923 },
  { yardsToGoal: 75, points: 0.236 },
  { yardsToGoal: 85, points: -0.637 },
  { yardsToGoal: 95, points: -1.245 },
];

/**
 * Expected points of a first and ten for the side with the ball, interpolated linearly in the published table. Beyond
 * the table's ends (inside 5, outside 95) the end's value holds: a line drawn on would promise more than was measured.
 *
 * @param yardsToGoal - yards from the ball to the goal line attacked, 0 to 100; need not be whole
 * @returns points; negative where the other side is more likely to score next
 * @throws DomainError `stats.invalid_number`
 * @see Carter and Machol (1971), Operations Research 19, 541-544, Table I
 */
export function firstAndTenPoints(yardsToGoal: number): number {
  if (!(yardsToGoal >= 0 && yardsToGoal <= 100)) {
    throw new DomainError('stats.invalid_number', `yardsToGoal must be from 0 to 100, is ${yardsToGoal}`, {
      name: 'yardsToGoal',
      value: yardsToGoal,
    });
  }
  let before: ExpectedPointsEntry | undefined;
  for (const entry of PUBLISHED_FIRST_AND_TEN) {
    if (yardsToGoal <= entry.yardsToGoal) {
      if (before === undefined) return entry.points;
      const share = (yardsToGoal - before.yardsToGoal) / (entry.yardsToGoal - before.yardsToGoal);
      return before.points + share * (entry.points - before.points);
    }
    before = entry;
  }
  return before?.points ?? 0;
}

/**
 * What the spot is worth to the side that has just lost the ball there: the sign turns and the field mirrors.
 *
 * @param yardsToGoal - yards to the goal line that the side that lost the ball was attacking, 0 to 100
 * @returns points for the side that lost the ball
 * @throws DomainError `stats.invalid_number`
 */
export function firstAndTenPointsAfterLosingTheBall(yardsToGoal: number): number {
  return -firstAndTenPoints(100 - yardsToGoal);
}
