import { UNKNOWN_CODE, UNKNOWN_NUMBER } from '../../charting/play-columns.js';
import { wordValue, type DimensionCodes } from '../dimension-codes.js';
import type { TendencyPlays } from '../tendency-plays.js';

/** Last second of each band but the open one. A quick snap, a usual one, a check, a long look; common practice, no source. */
const BANDS = [3, 7, 14];
const BAND_NAMES = ['3 seconds or fewer', '4 to 7 seconds', '8 to 14 seconds', '15 seconds or more'];

/** No offense stands this long: one of the two times is wrong. */
const LONGEST_WAIT = 60;

/** Stands where the wait is not known. */
export const UNKNOWN_WAIT = -1;

/**
 * Seconds from the line-up to the snap, one a play; UNKNOWN_WAIT where either time is missing or the two contradict
 * each other (a snap before the line-up, or more than a minute after it).
 */
export function waitSeconds({ plays }: TendencyPlays): Int16Array {
  const lineUp = plays.number('lineUpSecond').values;
  const snap = plays.number('snapSecond').values;
  const waits = new Int16Array(plays.count).fill(UNKNOWN_WAIT);
  for (let play = 0; play < waits.length; play += 1) {
    const from = lineUp[play] ?? UNKNOWN_NUMBER;
    const to = snap[play] ?? UNKNOWN_NUMBER;
    if (from === UNKNOWN_NUMBER || to === UNKNOWN_NUMBER) continue;
    const wait = to - from;
    if (wait >= 0 && wait <= LONGEST_WAIT) waits[play] = wait;
  }
  return waits;
}

/** The wait in bands, as a cue: how long the offense has stood tells by itself. */
export function waitCodes(facts: TendencyPlays): DimensionCodes {
  const codes = waitSeconds(facts).map((wait) => {
    if (wait === UNKNOWN_WAIT) return UNKNOWN_CODE;
    const band = BANDS.findIndex((last) => wait <= last);
    return band < 0 ? BANDS.length : band;
  });
  return { codes, values: BAND_NAMES.map(wordValue) };
}
