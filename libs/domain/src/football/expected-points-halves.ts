import { UNKNOWN_NUMBER, type PlayColumns } from '../charting/play-columns.js';

/** Stands where the quarter is not known. */
export const UNKNOWN_HALF = 0;

/**
 * The stretch of a game within which plays follow each other: 1 and 2 for the halves, one more for each overtime period.
 * Reads quarter.
 *
 * @returns one number a play, UNKNOWN_HALF where the quarter is unknown
 */
export function halves(plays: PlayColumns): Uint8Array {
  const quarters = plays.number('quarter').values;
  const half = new Uint8Array(plays.count).fill(UNKNOWN_HALF);
  for (let play = 0; play < plays.count; play += 1) {
    const quarter = quarters[play] ?? UNKNOWN_NUMBER;
    if (quarter !== UNKNOWN_NUMBER) half[play] = quarter <= 4 ? Math.ceil(quarter / 2) : quarter - 2;
  }
  return half;
}
