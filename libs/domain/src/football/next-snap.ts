import type { LedToName, PlayFacts, ResultName } from './play-facts.js';

/** How far the drive's number may have moved on. Charts count kickoffs and tries to the drive before or after them. */
export type DriveStep = 'same' | 'next' | 'same or next';

/** One way in which a game may go on after a play. A part that is null may be anything. */
export interface NextSnap {
  /** `down` is a snap with a down, whatever is then done with it. */
  readonly kind: 'down' | 'try' | 'kickoff';
  readonly offense: number | null;
  readonly down: number | null;
  /** Yards, or `series`: 10, or the goal if that is nearer. */
  readonly distance: number | 'series' | null;
  readonly yardsToGoal: number | null;
  readonly drive: DriveStep | null;
}

const RUN_OR_PASS: readonly (ResultName | null)[] = [
  'rushed',
  'complete',
  'incomplete',
  'intercepted',
  'sacked',
  'scrambled',
  'aborted-snap',
];
/** A charted spot or gain is right to about a yard, so that within one yard of the line to gain both are possible. */
const ROUNDING_YARDS = 1;

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

function sameAgain(play: PlayFacts): NextSnap {
  const { offense, down, distance, yardsToGoal } = play;
  if (play.kind === 'kickoff' || play.kind === 'try') return { ...ANYTHING, kind: play.kind, offense, drive: 'same' };
  return { kind: 'down', offense, down, distance, yardsToGoal, drive: 'same' };
}

const ANYTHING = { offense: null, down: null, distance: null, yardsToGoal: null, drive: null } as const;

function afterResult(play: PlayFacts): NextSnap[] {
  const { offense, ledTo } = play;
  const other = 1 - offense;
  if (play.kind === 'try') return [kickoffBy(offense)];
  if (has(play, 'touchdown-offense')) return [tryBy(offense)];
  if (has(play, 'touchdown-defense-or-return')) return [tryBy(other)];
  const isFromScrimmage = play.kind === 'scrimmage' || play.isFake || RUN_OR_PASS.includes(play.result);
  if (has(play, 'safety-scored')) {
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
    return [has(play, 'fumble-lost') ? { ...lost, offense: null, drive: null } : lost, ...lostForScore];
  }
  if (has(play, 'fumble-lost')) return [lost];
  const spot = spotAfter(play);
  if (has(play, 'turnover-on-downs')) return [ballLost(play, spot)];

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
  if (has(play, 'first-down-gained') || gain === null || play.distance === null) return true;
  return gain >= play.distance - (play.ledTo === null && gain > 0 ? ROUNDING_YARDS : 0);
}

function mayFallShort(play: PlayFacts, gain: number | null): boolean {
  if (has(play, 'first-down-gained')) return false;
  if (gain === null || play.distance === null) return true;
  // A chart that lists no first down may just have left it out; the yards overrule it once they are clear.
  return gain < play.distance + ROUNDING_YARDS;
}

function afterPunt(play: PlayFacts): NextSnap[] {
  const received = ballLost(play, spotOfKick(play, ['returned', 'fair-catch', 'downed']));
  const kept: NextSnap = { ...newSeries(play.offense, null, 'same or next') };
  switch (play.result) {
    case 'kick-blocked':
      // Picked up behind the line before fourth down, the next down is played.
      return has(play, 'first-down-gained') ? [kept] : [received, kept, { ...kept, down: null, distance: null }];
    case 'muffed':
      if (has(play, 'fumble-kept')) return [received];
      return has(play, 'fumble-lost') ? [kept] : [received, kept];
    case null:
      return [received, kept];
    default:
      if (has(play, 'fumble-lost')) return [kept];
      return play.ledTo === null && play.result === 'returned' ? [received, kept] : [received];
  }
}

function afterFieldGoal(play: PlayFacts): NextSnap[] {
  const good = kickoffBy(play.offense);
  // From where the other side starts after a miss differs between rule books.
  const missed = ballLost(play, null);
  switch (play.result) {
    case 'kick-good':
      return [good];
    case 'kick-blocked':
      return [missed, { ...newSeries(play.offense, null, 'same or next'), down: null, distance: null }];
    case null:
      return [good, missed];
    default:
      return [missed];
  }
}

function afterKickoff(play: PlayFacts): NextSnap[] {
  const received = { ...ballLost(play, spotOfKick(play, ['returned'])), drive: 'same or next' } as const;
  const kept = newSeries(play.offense, null, 'same or next');
  switch (play.result) {
    case 'onside-recovered-by-the-kickers':
      return [kept];
    case 'onside-recovered-by-the-receivers':
    case 'touchback':
    case 'fair-catch':
    case 'downed':
      return [received];
    case 'muffed':
      if (has(play, 'fumble-kept')) return [received];
      return has(play, 'fumble-lost') ? [kept] : [received, kept];
    case 'returned':
      if (has(play, 'fumble-lost')) return [kept];
      return play.ledTo === null ? [received, kept] : [received];
    default:
      return [received, kept];
  }
}

/** The foul is enforced and the down is played again. */
function replayAfterFoul(play: PlayFacts, side: 'offense' | 'defense'): NextSnap[] {
  const { offense, down, distance, yardsToGoal } = play;
  if (play.kind === 'kickoff') return [sameAgain(play)];
  if (play.kind === 'try') return [sameAgain(play), kickoffBy(offense)];
  // Enforced from the spot of the snap, or from where the play or the foul ended it.
  const bases = new Set([yardsToGoal, yardsToGoal === null ? null : (spotAfter(play) ?? yardsToGoal)]);
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
      if (has(play, 'first-down-gained') || (left !== null && left <= -ROUNDING_YARDS)) return [series];
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
  const room = side === 'defense' ? base : 100 - base;
  const towardsOwnGoal = side === 'defense' ? -1 : 1;
  const full = base + towardsOwnGoal * yards;
  if (2 * yards <= room) return [clampSpot(full)];
  const half = clampSpot(base + towardsOwnGoal * Math.round(room / 2));
  return full >= 1 && full <= 99 ? [full, half] : [half];
}

function newSeries(offense: number, yardsToGoal: number | null, drive: DriveStep): NextSnap {
  return { kind: 'down', offense, down: 1, distance: 'series', yardsToGoal, drive };
}

/** The other side begins where the ball lies; `spot` is given from the side that lost it. */
function ballLost(play: PlayFacts, spot: number | null): NextSnap {
  return newSeries(1 - play.offense, spot === null ? null : clampSpot(100 - spot), 'next');
}

function tryBy(offense: number): NextSnap {
  return { ...ANYTHING, kind: 'try', offense, drive: 'same or next' };
}

function kickoffBy(offense: number | null): NextSnap {
  return { ...ANYTHING, kind: 'kickoff', offense, drive: 'same or next' };
}

/** Where a kick ended, counted from the spot it was snapped or kicked at, as the kicking side sees it. */
function spotOfKick(play: PlayFacts, results: readonly ResultName[]): number | null {
  const { result, yardsToGoal, kickLength } = play;
  if (result === null || !results.includes(result)) return null;
  const returned = play.returnYards ?? (result === 'returned' ? null : 0);
  if (yardsToGoal === null || kickLength === null || returned === null) return null;
  const spot = yardsToGoal - kickLength + returned;
  return spot >= 1 && spot <= 99 ? spot : null;
}

function gainOf(play: PlayFacts): number | null {
  return play.gain ?? (play.result === 'incomplete' || play.result === 'spiked' ? 0 : null);
}

/** Yards to the goal after the gain; 0 or less is across the goal line, 100 or more in the own end zone. */
function spotAfter(play: PlayFacts): number | null {
  const gain = gainOf(play);
  return play.yardsToGoal === null || gain === null ? null : play.yardsToGoal - gain;
}

function clampSpot(spot: number): number {
  return Math.min(99, Math.max(1, spot));
}

function has(play: PlayFacts, name: LedToName): boolean {
  return play.ledTo?.has(name) === true;
}
