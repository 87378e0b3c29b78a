import { HOLDING_ANSWER, SPREADING_CALL } from './planted.js';
import { chance, oneOf, streamFor } from './randomness.js';
import type { FieldValues, TruePlay } from './snap.js';
import type { RandomSource } from '#domain/statistics/seeded-random.js';

/**
 * The rest of the story of the call that spreads: why its answer holds it, and that our charters wind back for it.
 * Both draw from streams of their own, so that the story leaves every other snap of the league as it was.
 */

/** The reason: the tight front closes the gap behind the pulling blockers, and the edge sends the runner back inside. */
export const WHY_IT_HOLDS = 'forced by a set edge';
const FORCED_SHARE = 0.8;

export function isSpreadingCall({ concept }: Pick<FieldValues, 'concept'>): boolean {
  return concept === SPREADING_CALL;
}

export function isHeld({ front, coverage }: Pick<FieldValues, 'front' | 'coverage'>): boolean {
  return front === HOLDING_ANSWER.front && coverage === HOLDING_ANSWER.coverage;
}

/** In the first event it is tried out: most of its snaps are other option runs. */
const TRIED_OUT_SHARE = 0.3;
const OTHER_OPTIONS = ['zone read', 'power read', 'midline', 'speed option'];

/** Writes on the snaps of a played game which were the call after all, and where the answer sent the ball. */
export function tellItsStory(game: string, event: number, plays: readonly TruePlay[]): void {
  const random = streamFor(`the call that spreads in ${game}`);
  for (const { values } of plays) {
    if (!isSpreadingCall(values)) continue;
    if (event === 1 && !chance(random, TRIED_OUT_SHARE)) values.concept = oneOf(random, OTHER_OPTIONS);
    else if (isHeld(values) && chance(random, FORCED_SHARE)) {
      values.offDesign = WHY_IT_HOLDS;
      values.actualGap = 'B gap';
    }
  }
}

/** How often a charter who winds back for the call sees a field that the first look missed, whatever came of the snap. */
const SEEN_AGAIN: Readonly<Record<string, number>> = { front: 0.9, coverage: 0.8, pressure: 0.8, offDesign: 0.85 };

export function isSeenAgain(random: RandomSource, field: string, { values }: TruePlay): boolean {
  return isSpreadingCall(values) && chance(random, SEEN_AGAIN[field] ?? 0);
}
