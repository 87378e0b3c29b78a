import { UNKNOWN_CODE } from '../../charting/play-columns.js';

export interface PairCodes {
  /** One a play: place in `pairs`, -1 where either is unknown. */
  readonly codes: Int16Array;
  /** Codes of the first and the second, for each combination that occurs, in the order of first sight. */
  readonly pairs: readonly (readonly [first: number, second: number])[];
}

/**
 * Two codes of each play as one.
 *
 * @param first        - one a play, -1 unknown
 * @param second       - one a play, -1 unknown
 * @param secondValues - codes of the second are below this
 */
export function pairCodes(first: Int16Array, second: Int16Array, secondValues: number): PairCodes {
  const pairs: (readonly [number, number])[] = [];
  const codes = new Int16Array(first.length).fill(UNKNOWN_CODE);
  const placeOf = new Map<number, number>();
  for (let play = 0; play < codes.length; play += 1) {
    const one = first[play] ?? UNKNOWN_CODE;
    const other = second[play] ?? UNKNOWN_CODE;
    if (one < 0 || other < 0) continue;
    const combined = one * secondValues + other;
    let place = placeOf.get(combined);
    if (place === undefined) {
      place = pairs.push([one, other]) - 1;
      placeOf.set(combined, place);
    }
    codes[play] = place;
  }
  return { codes, pairs };
}
