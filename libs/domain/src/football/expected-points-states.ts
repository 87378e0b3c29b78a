import { PUBLISHED_FIRST_AND_TEN } from './expected-points.js';

/** Distances that behave alike on a down; the last one is open. */
interface DistanceBucket {
  readonly down: number;
  readonly name: string;
  /** A distance that stands for the bucket, in yards. */
  readonly typicalDistance: number;
}

/**
 * First down: the usual ten yards or goal to go, fewer, more. Later downs: 1-2, 3-6, 7-10, 11 or more. Common practice,
 * no source; coarser than the situations of a report, since each bucket is crossed with ten strips of the field.
 */
export const DISTANCE_BUCKETS: readonly DistanceBucket[] = [
  { down: 1, name: '10 or goal', typicalDistance: 10 },
  { down: 1, name: 'under 10', typicalDistance: 5 },
  { down: 1, name: 'over 10', typicalDistance: 17 },
  ...[2, 3, 4].flatMap((down) => [
    { down, name: '1-2', typicalDistance: 1.5 },
    { down, name: '3-6', typicalDistance: 4.5 },
    { down, name: '7-10', typicalDistance: 8.5 },
    { down, name: '11 or more', typicalDistance: 14 },
  ]),
];

/** Middles of the strips of the field, yards to the goal, those of the published table. */
export const STRIP_MIDDLES: readonly number[] = PUBLISHED_FIRST_AND_TEN.map(({ yardsToGoal }) => yardsToGoal);

const STRIPS = STRIP_MIDDLES.length;

/** States of the chain: every bucket in every strip, bucket by bucket. */
export const CHAIN_STATES = DISTANCE_BUCKETS.length * STRIPS;

export function stateOf(bucket: number, strip: number): number {
  return bucket * STRIPS + strip;
}

/**
 * The bucket of a down and distance.
 *
 * @param down        - 1 to 4
 * @param distance    - yards to the line to gain, ≥ 1
 * @param yardsToGoal - 1 to 99; on first down a distance that ends at the goal line is the usual one
 */
export function bucketOf(down: number, distance: number, yardsToGoal: number): number {
  if (down === 1) return distance === 10 || distance >= yardsToGoal ? 0 : distance < 10 ? 1 : 2;
  const within = distance <= 2 ? 0 : distance <= 6 ? 1 : distance <= 10 ? 2 : 3;
  return 3 + 4 * (down - 2) + within;
}

/** Where a spot lies between two strip middles; `upperWeight` is the share of `lower + 1`, in [0, 1]. */
export interface StripPlace {
  readonly lower: number;
  readonly upperWeight: number;
}

/** Place of every whole yard, 0 to 100, worked out once. */
const PLACES: readonly StripPlace[] = Array.from({ length: 101 }, (_, yards) => placeBetween(yards));

/**
 * A spot as a mixture of the two nearest strip middles, so that a value read off the states runs on without steps from
 * yard to yard. Beyond the outermost middles it is the outermost strip's, as in the published table.
 *
 * @param yardsToGoal - whole yards, 0 to 100
 */
export function stripPlace(yardsToGoal: number): StripPlace {
  return PLACES[yardsToGoal] ?? placeBetween(yardsToGoal);
}

function placeBetween(yards: number): StripPlace {
  const first = STRIP_MIDDLES[0] ?? 0;
  const last = STRIP_MIDDLES[STRIPS - 1] ?? first;
  const inside = Math.min(last, Math.max(first, yards));
  let lower = 0;
  while (lower < STRIPS - 2 && inside > (STRIP_MIDDLES[lower + 1] ?? last)) lower += 1;
  const from = STRIP_MIDDLES[lower] ?? first;
  const to = STRIP_MIDDLES[lower + 1] ?? last;
  return { lower, upperWeight: (inside - from) / (to - from) };
}
