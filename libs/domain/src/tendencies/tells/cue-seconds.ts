import type { TendencyPlays } from '../tendency-plays.js';
import type { FirstSeen } from './cue-names.js';
import { UNKNOWN_WAIT, waitSeconds } from './line-up-wait.js';
import type { CueSeconds } from './tell-shape.js';

/**
 * Seconds that a cue leaves before the snap, from the plays on which it was seen. Only where the chart can say: what
 * stands from the line-up on leaves the wait, what shows earlier leaves at least that.
 *
 * @param shown - places of the plays with the cue
 * @returns null where no field says when the cue is first seen, or no play has both times
 */
export function cueSeconds(firstSeen: FirstSeen, facts: TendencyPlays, shown: Int32Array): CueSeconds | null {
  if (firstSeen === 'not charted') return null;
  const waits = waitSeconds(facts);
  const known = Int16Array.from(shown, (play) => waits[play] ?? UNKNOWN_WAIT)
    .filter((wait) => wait !== UNKNOWN_WAIT)
    .sort();
  const [fewest] = known;
  if (fewest === undefined) return null;
  const middle = known.length >> 1;
  const upper = known[middle] ?? fewest;
  const median = known.length % 2 === 1 ? upper : ((known[middle - 1] ?? upper) + upper) / 2;
  return { median, fewest, plays: known.length, atLeast: firstSeen === 'before line-up' };
}
