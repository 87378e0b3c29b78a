import { wilsonInterval } from '../statistics/wilson-interval.js';
import { pointsAddedOf } from './points-added.js';
import type { FieldShare, Results } from './results-shape.js';
import type { ResultCounts, YardTallies } from './value-tallies.js';

/**
 * Results of the plays of one value.
 *
 * @param own        - the player's counts
 * @param field      - the field's, or null where there is none
 * @param tallies    - yards and explosive plays
 * @param place      - the value's place in the tallies
 * @param confidence - of the interval
 */
export function resultsOf(
  own: ResultCounts,
  field: ResultCounts | null,
  { yards, yardPlays, explosive, explosivePlays, points }: YardTallies,
  place: number,
  confidence: number,
): Results {
  const gainPlays = yardPlays[place] ?? 0;
  const bigPlays = explosivePlays[place] ?? 0;
  const big = explosive[place] ?? 0;
  return {
    trials: own.trials,
    successes: own.successes,
    success:
      own.trials === 0
        ? null
        : { share: own.successes / own.trials, interval: wilsonInterval(own.successes, own.trials, confidence) },
    fieldSuccess: field === null ? null : fieldShare(field.successes, field.trials),
    yards: gainPlays === 0 ? null : { plays: gainPlays, mean: (yards[place] ?? 0) / gainPlays },
    explosive: bigPlays === 0 ? null : { plays: bigPlays, count: big, share: big / bigPlays },
    pointsAdded: pointsAddedOf(points, place, confidence),
  };
}

/** Null where nothing is known. */
export function fieldShare(count: number, known: number): FieldShare | null {
  return known === 0 ? null : { share: count / known, count, known };
}
