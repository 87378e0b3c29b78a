import { afterFieldGoal, afterKickoff, afterPunt } from './after-kick.js';
import {
  ROUNDING_YARDS,
  ballLost,
  clampSpot,
  didLeadTo,
  gainOf,
  kickoffBy,
  newSeries,
  spotAfter,
  tryBy,
  type NextSnap,
} from './next-snap.js';
import { RUN_OR_PASS, type PlayFacts, type ResultName } from './play-facts.js';

const FROM_SCRIMMAGE: readonly (ResultName | null)[] = RUN_OR_PASS;

/** Every way on after a snap whose result stands, fouls left aside. */
export function afterResult(play: PlayFacts): NextSnap[] {
  const { offense, ledTo } = play;
  const other = 1 - offense;
  if (play.kind === 'try') return [kickoffBy(offense)];
  if (didLeadTo(play, 'touchdown-offense')) return [tryBy(offense)];
  if (didLeadTo(play, 'touchdown-defense-or-return')) return [tryBy(other)];
  const isFromScrimmage = play.kind === 'scrimmage' || play.isFake || FROM_SCRIMMAGE.includes(play.result);
  if (didLeadTo(play, 'safety-scored')) {
    // On a kick or after an interception either side may have been caught in its own end zone.
    return [kickoffBy(isFromScrimmage && play.result !== 'intercepted' ? offense : null)];
  }
  if (isFromScrimmage) return afterScrimmage(play);
  const scoreOnReturn = ledTo === null ? [tryBy(other)] : [];
  if (play.kind === 'punt') return [...afterPunt(play), ...scoreOnReturn];
  if (play.kind === 'field goal') return [...afterFieldGoal(play), ...scoreOnReturn];
  return [...afterKickoff(play), ...scoreOnReturn];
}

function afterScrimmage(play: PlayFacts): NextSnap[] {
  const { offense, ledTo, result } = play;
  const lost = ballLost(play, null);
  const lostForScore = ledTo === null ? [tryBy(1 - offense)] : [];
  if (result === 'intercepted') {
    // The interceptor may have fumbled it back.
    return [didLeadTo(play, 'fumble-lost') ? { ...lost, offense: null, drive: null } : lost, ...lostForScore];
  }
  if (didLeadTo(play, 'fumble-lost')) return [lost];
  const spot = spotAfter(play);
  if (didLeadTo(play, 'turnover-on-downs')) return [ballLost(play, spot)];

  const ways = onwards(play, spot);
  const touchdownIsPossible = spot === null ? ledTo === null : spot <= (ledTo === null ? ROUNDING_YARDS : 0);
  if (touchdownIsPossible) ways.push(tryBy(offense));
  const safetyIsPossible = spot === null ? ledTo === null : spot >= 100 - (ledTo === null ? ROUNDING_YARDS : 0);
  if (safetyIsPossible) ways.push(kickoffBy(offense));
  // Nobody can lose an incompletion; anything else may have been fumbled or, unseen, intercepted.
  if (ledTo === null && result !== 'incomplete' && result !== 'spiked') ways.push(lost, ...lostForScore);
  if (ledTo !== null && result === null) ways.push(lost);
  return ways;
}

/** The offense keeps the ball and the chains decide. */
function onwards(play: PlayFacts, spotReached: number | null): NextSnap[] {
  const { offense, down, distance } = play;
  const gain = gainOf(play);
  const spot = spotReached === null ? null : clampSpot(spotReached);
  const ways: NextSnap[] = [];
  if (mayBeFirstDown(play, gain)) ways.push(newSeries(offense, spot, 'same'));
  if (!mayFallShort(play, gain)) return ways;
  if (down === null || down === 4) ways.push(ballLost(play, spot));
  if (down !== 4) {
    const left = distance === null || gain === null ? null : Math.max(1, distance - gain);
    ways.push({
      kind: 'down',
      offense,
      down: down === null ? null : down + 1,
      distance: left,
      yardsToGoal: spot,
      drive: 'same',
    });
  }
  return ways;
}

function mayBeFirstDown(play: PlayFacts, gain: number | null): boolean {
  if (didLeadTo(play, 'first-down-gained') || gain === null || play.distance === null) return true;
  const wasCaughtOrCarried = gain >= 0 && play.result !== 'incomplete' && play.result !== 'spiked';
  const rounding = play.ledTo === null && wasCaughtOrCarried ? ROUNDING_YARDS : 0;
  return gain >= play.distance - rounding;
}

function mayFallShort(play: PlayFacts, gain: number | null): boolean {
  if (didLeadTo(play, 'first-down-gained')) return false;
  if (gain === null || play.distance === null) return true;
  // A chart that lists no first down may just have left it out; the yards overrule it once they are clear.
  return gain < play.distance + ROUNDING_YARDS;
}
