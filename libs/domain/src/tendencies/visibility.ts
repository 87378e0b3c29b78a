import { wilsonInterval } from '../statistics/wilson-interval.js';
import type { VisibilityWarning } from './profile-shape.js';
import type { TendencyPlays } from './tendency-plays.js';

// A profile asks this of a dozen dimensions; at 99 % one false warning comes in about eight profiles.
const CONFIDENCE = 0.99;

/**
 * Whether a dimension is known more often on plays that succeeded than on those that failed, or less often: the deep
 * throw shows the coverage, the sack shows the pressure, and a share over what was seen is then no share over what was
 * called.
 *
 * @param places - places of the plays in the batch
 * @param codes  - the dimension's code of each play of the batch, -1 unknown
 * @returns the counts where the interval of the difference leaves out 0, else null
 * @see Newcombe (1998), Stat. Med. 17, 873–890, method 10
 */
export function visibilityWarning(
  { success }: TendencyPlays,
  places: Int32Array,
  codes: Int16Array,
): VisibilityWarning | null {
  let [successes, knownOnSuccesses, failures, knownOnFailures] = [0, 0, 0, 0];
  for (const play of places) {
    const known = (codes[play] ?? -1) < 0 ? 0 : 1;
    if (success[play] === 1) {
      successes += 1;
      knownOnSuccesses += known;
    } else if (success[play] === 0) {
      failures += 1;
      knownOnFailures += known;
    }
  }
  if (successes === 0 || failures === 0) return null;

  const onSuccess = knownOnSuccesses / successes;
  const onFailure = knownOnFailures / failures;
  const first = wilsonInterval(knownOnSuccesses, successes, CONFIDENCE);
  const second = wilsonInterval(knownOnFailures, failures, CONFIDENCE);
  const between = onSuccess - onFailure;
  const lower = between - Math.hypot(onSuccess - first.lower, second.upper - onFailure);
  const upper = between + Math.hypot(first.upper - onSuccess, onFailure - second.lower);
  if (lower <= 0 && upper >= 0) return null;
  return { knownOnSuccesses, successes, knownOnFailures, failures, difference: { lower, upper } };
}
