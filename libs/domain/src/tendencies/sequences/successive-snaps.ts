import { UNKNOWN_NUMBER } from '../../charting/play-columns.js';
import { halves, UNKNOWN_HALF } from '../../football/expected-points-halves.js';
import { playOrder } from '../../football/play-order.js';
import type { TendencyPlays } from '../tendency-plays.js';

/** How far apart two snaps may lie and still follow each other: in one drive, or in one half of a game. */
export type JoinedWithin = 'drive' | 'half';

/**
 * The counting snap before each counting snap, the same side having the ball. Snaps are never joined across charts or
 * halves. Within a drive both must be known to belong to it, and nothing that was played in between may be missing from
 * the batch; snaps that do not count for calls (kneels, kicks, dead balls) are stepped over. Within a half drives are
 * joined, and both halves must be known.
 *
 * Reads quarter and drive. Give charts whose film scope covers all snaps of the side: what was not charted on purpose
 * cannot be told from what was not played when drives are joined.
 *
 * @returns place of the snap before, one a play; -1 where there is none
 */
export function previousSnaps({ plays, counts }: TendencyPlays, within: JoinedWithin): Int32Array {
  const half = halves(plays);
  const drives = plays.number('drive').values;
  const previous = new Int32Array(plays.count).fill(-1);
  let before = -1;
  let last = -1;
  for (const play of playOrder(plays)) {
    const joined =
      last >= 0 &&
      plays.chartIndex[last] === plays.chartIndex[play] &&
      plays.offenseIsHome[last] === plays.offenseIsHome[play];
    const sameHalf = half[last] === half[play] && half[play] !== UNKNOWN_HALF;
    const drive = drives[play] ?? UNKNOWN_NUMBER;
    const sameDrive = drive !== UNKNOWN_NUMBER && drives[last] === drive;
    const next = plays.orderInGame[play] === (plays.orderInGame[last] ?? 0) + 1;
    if (!joined || !(within === 'drive' ? sameDrive && next : sameHalf)) before = -1;
    if (counts[play] === 1) {
      previous[play] = before;
      before = play;
    }
    last = play;
  }
  return previous;
}
