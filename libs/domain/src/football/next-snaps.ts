import { afterResult } from './after-snap.js';
import {
  ROUNDING_YARDS,
  clampSpot,
  didLeadTo,
  kickoffBy,
  newSeries,
  sameAgain,
  spotAfter,
  type NextSnap,
} from './next-snap.js';
import type { PlayFacts } from './play-facts.js';

/**
 * Every way in which the game may go on after a play by the rules, as far as the chart says what happened; several where
 * it leaves something open. Nothing here looks at the play that did follow. Common practice, no source.
 */
export function nextSnaps(play: PlayFacts): NextSnap[] {
  const nullified = isNullified(play);
  const { foul } = play;
  if (foul === null) return nullified === true ? [sameAgain(play)] : afterResult(play);

  const ways: NextSnap[] = [];
  if (foul.answer === null || foul.answer === 'offset') ways.push(sameAgain(play));
  if (foul.answer === null || foul.answer === 'declined') {
    ways.push(...(nullified === true ? [sameAgain(play)] : afterResult(play)));
  }
  if (foul.answer === null || foul.answer === 'accepted') {
    for (const side of foul.side === null ? (['offense', 'defense'] as const) : [foul.side]) {
      if (nullified !== false) ways.push(...replayAfterFoul(play, side));
      if (nullified !== true) ways.push(...resultWithFoul(play, side));
    }
  }
  return ways;
}

/** Whether the snap has no result; null where the chart leaves it open. */
function isNullified(play: PlayFacts): boolean | null {
  if (play.result === 'no-play' || play.neverSnapped || play.replayed === true) return true;
  return play.replayed === false || play.foul === null ? false : null;
}

/** The foul is enforced and the down is played again. */
function replayAfterFoul(play: PlayFacts, side: 'offense' | 'defense'): NextSnap[] {
  const { offense, down, distance, yardsToGoal } = play;
  if (play.kind === 'kickoff') return [sameAgain(play)];
  if (play.kind === 'try') return [sameAgain(play), kickoffBy(offense)];
  // Enforced from the spot of the snap or, where a play was run, from where it or the foul ended it.
  const wasRun = play.result !== 'no-play' && !play.neverSnapped;
  const bases = new Set([yardsToGoal, wasRun && yardsToGoal !== null ? (spotAfter(play) ?? yardsToGoal) : yardsToGoal]);
  return [...bases]
    .flatMap((base) => spotsAfterFoul(base, side, play.foul?.yards ?? null))
    .flatMap((spot) => {
      const moved = spot === null || yardsToGoal === null ? null : yardsToGoal - spot;
      const left = distance === null || moved === null ? null : distance - moved;
      const again: NextSnap = {
        kind: 'down',
        offense,
        down,
        distance: left === null ? null : Math.max(1, left),
        yardsToGoal: spot,
        drive: 'same',
      };
      if (side === 'offense') {
        // A foul with loss of down leaves a snap without a result that is not played again.
        return play.replayed === false && down !== null ? [again, { ...again, down: down + 1 }] : [again];
      }
      const series = newSeries(offense, spot, 'same');
      if (didLeadTo(play, 'first-down-gained') || (left !== null && left <= -ROUNDING_YARDS)) return [series];
      const isFree = play.foul?.mayGiveFirstDown === true || left === null || left <= ROUNDING_YARDS;
      return isFree ? [again, series] : [again];
    });
}

/** The play stands and the foul's yards are added to it. */
function resultWithFoul(play: PlayFacts, side: 'offense' | 'defense'): NextSnap[] {
  const yards = play.foul?.yards ?? null;
  return afterResult(play).flatMap((way): NextSnap[] => {
    if (way.kind !== 'down') return [way];
    // After a kick or a change of possession it is not known which spot the yards were counted from.
    if (play.kind === 'kickoff' || way.offense !== play.offense || play.kind === 'punt') {
      return [{ ...way, yardsToGoal: null }, ...(side === 'defense' ? [newSeries(play.offense, null, 'same')] : [])];
    }
    return spotsAfterFoul(way.yardsToGoal, side, yards).flatMap((spot) => {
      const moved = spot === null || way.yardsToGoal === null ? null : way.yardsToGoal - spot;
      const left = typeof way.distance !== 'number' || moved === null ? null : Math.max(1, way.distance - moved);
      const series = newSeries(play.offense, spot, 'same');
      if (way.distance === 'series') {
        // A foul after the play moves the new series, a foul during it also its line to gain.
        return side === 'defense' ? [series] : [series, { ...series, distance: moved === null ? null : 10 - moved }];
      }
      const further: NextSnap = { ...way, yardsToGoal: spot, distance: left };
      return side === 'defense' ? [series, further] : [further];
    });
  });
}

/** Where a foul may put the ball: its yards, or half the way to the goal line if the chart wrote down the full ones. */
function spotsAfterFoul(
  base: number | null,
  side: 'offense' | 'defense',
  yards: number | null,
): readonly (number | null)[] {
  if (base === null || yards === null) return [null];
  const from = clampSpot(base);
  const room = side === 'defense' ? from : 100 - from;
  const direction = side === 'defense' ? -1 : 1;
  const full = from + direction * yards;
  if (2 * yards <= room) return [full];
  const half = clampSpot(from + direction * Math.round(room / 2));
  return full >= 1 && full <= 99 ? [full, half] : [half];
}
