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
 * that alone it would send four receivers deep from the goal line. Where these are too few to mix, those that nobody calls
 * but whose like somebody calls there come in too, and all of them where these are too few as well.
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
  const used = installed.filter(({ levels }) => {
    const plays = levels.reduce((sum, { level }) => sum + (uses[level] ?? 0), 0);
    return plays >= LEAST_USES && plays >= LEAST_USED * known;
  });
  const seen = used.filter(({ byItsLike }) => !byItsLike);
  return [seen, used].find(({ length }) => length >= FEWEST_TO_MIX) ?? installed;
}
