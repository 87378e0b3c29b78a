import { wilsonInterval } from '../statistics/wilson-interval.js';
import { pointsAddedOf } from './points-added.js';
import type { FieldShare, Results } from './results-shape.js';
import type { ResultCounts, YardTallies, YardTally } from './value-tallies.js';

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
  { gains, points }: YardTallies,
  place: number,
  confidence: number,
): Results {
  const { yardPlays, yards, explosivePlays, explosive } = gains[place] ?? NOTHING_GAINED;
  return {
    trials: own.trials,
    successes: own.successes,
    success:
      own.trials === 0
        ? null
        : { share: own.successes / own.trials, interval: wilsonInterval(own.successes, own.trials, confidence) },
    fieldSuccess: field === null ? null : fieldShare(field.successes, field.trials),
    yards: yardPlays === 0 ? null : { plays: yardPlays, mean: yards / yardPlays },
    explosive:
      explosivePlays === 0 ? null : { plays: explosivePlays, count: explosive, share: explosive / explosivePlays },
    pointsAdded: pointsAddedOf(points[place], confidence),
  };
}

const NOTHING_GAINED: Readonly<YardTally> = { yardPlays: 0, yards: 0, explosivePlays: 0, explosive: 0 };

/** Null where nothing is known. */
export function fieldShare(count: number, known: number): FieldShare | null {
  return known === 0 ? null : { share: count / known, count, known };
}
