import { ballLost, didLeadTo, kickoffBy, newSeries, type NextSnap } from './next-snap.js';
import type { PlayFacts, ResultName } from './play-facts.js';

export function afterPunt(play: PlayFacts): NextSnap[] {
  const received = ballLost(play, spotOfKick(play, ['returned', 'fair-catch', 'downed']));
  const kept = newSeries(play.offense, null, 'same or next');
  switch (play.result) {
    case 'kick-blocked':
      // Picked up behind the line before fourth down, the next down is played.
      return didLeadTo(play, 'first-down-gained') ? [kept] : [received, kept, { ...kept, down: null, distance: null }];
    case 'muffed':
      if (didLeadTo(play, 'fumble-kept')) return [received];
      return didLeadTo(play, 'fumble-lost') ? [kept] : [received, kept];
    case null:
      return [received, kept];
    default:
      if (didLeadTo(play, 'fumble-lost')) return [kept];
      return play.ledTo === null && play.result === 'returned' ? [received, kept] : [received];
  }
}

export function afterFieldGoal(play: PlayFacts): NextSnap[] {
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

export function afterKickoff(play: PlayFacts): NextSnap[] {
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
      if (didLeadTo(play, 'fumble-kept')) return [received];
      return didLeadTo(play, 'fumble-lost') ? [kept] : [received, kept];
    case 'returned':
      if (didLeadTo(play, 'fumble-lost')) return [kept];
      return play.ledTo === null ? [received, kept] : [received];
    default:
      return [received, kept];
  }
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
