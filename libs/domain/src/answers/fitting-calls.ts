import type { SituationKey } from '../tendencies/situation-keys.js';
import type { CallOption } from './options.js';
import type { SituationCounts } from './situation-counts.js';

/** Less of the field's snaps in a situation than this, and a call is none for it. Common practice, no source. */
const LEAST_USED = 0.015;
const LEAST_USES = 3;

/** Of one call there is no mix. */
const FEWEST_TO_MIX = 2;

/**
 * Our calls for a situation: those that somebody calls there. What a call is worth is told over all situations together, so
 * that alone it would send four receivers deep from the goal line and six linemen against third and long. Where too few are
 * left to mix, all that somebody calls anywhere, and only where there are none of these the others too.
 *
 * @param installed - calls of our side
 * @param counts    - of our side of the ball
 */
export function fittingCalls(
  installed: readonly CallOption[],
  counts: SituationCounts,
  situation: SituationKey,
): readonly CallOption[] {
  const uses = counts.ofEverybody(situation);
  const known = uses.reduce((sum, count) => sum + count, 0);
  const seen = installed.filter(({ byItsLike }) => !byItsLike);
  const fits = seen.filter(({ levels }) => {
    const used = levels.reduce((sum, { level }) => sum + (uses[level] ?? 0), 0);
    return used >= LEAST_USES && used >= LEAST_USED * known;
  });
  return [fits, seen].find(({ length }) => length >= FEWEST_TO_MIX) ?? installed;
}
