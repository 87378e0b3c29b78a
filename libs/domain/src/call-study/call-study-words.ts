import { FEWEST_FOR_PERCENT, counted, percent, shareWords, signed } from '../tendencies/words/count-words.js';
import type { Results } from '../tendencies/results-shape.js';
import type { Giveaway, Giveaways } from '../tendencies/tells/giveaways.js';
import { cueWords } from '../tendencies/words/tell-words.js';
import { trendWords } from '../trends/trend-words.js';
import type { CallStudy } from './call-study.js';

// Sentences of a call study. Shares never stand without their counts; what a look goes with, it does not cause.

/** `132 plays of 41 games, by 17 players`. */
export function extentWords({ plays, games, players }: Pick<CallStudy, 'plays' | 'games' | 'players'>): string {
  return `${counted(plays, 'play')} of ${counted(games, 'game')}, by ${counted(players, 'player')}`;
}

/** What is said of a call that was put to the test, and that another was not. */
export function spreadWords({ trend, byEvent }: CallStudy['usage']): string {
  if (trend !== null) return trendWords(trend);
  const counts = byEvent.map(({ count, known }) => (known === 0 ? 'not seen' : `${count} of ${known}`)).join(', ');
  const seen = counts === '' ? 'No game of an event is charted' : `From event to event: ${counts}`;
  return `${seen}; not put to the test, since it is seldom used or no single part of a call`;
}

/** `motion jet: 22 of 33 plays with it were this call, 14 of 180 without; leaves 3 s`. */
export function giveawayWords({ cue, cueValue, count, plays, countWithout, playsWithout, seconds }: Giveaway): string {
  const left = seconds === null ? '' : `; leaves ${seconds.atLeast ? 'at least ' : ''}${seconds.median} s`;
  const look = cueWords(cue, cueValue);
  return `${look}: ${count} of ${plays} plays with it were this call, ${countWithout} of ${playsWithout} without${left}`;
}

export function lookedAtWords({ tested, found }: Giveaways, level: number): string {
  const looks = `${counted(tested, 'look')} put to the test, compared within one situation of one player's game`;
  return found.length === 0
    ? `${looks}: none gives it away`
    : `${looks}; of those found, ${percent(level)} may be chance`;
}

/** `success 28 of 65, 34-53 %, all calls 44 %; +0.08 expected points a play (-0.11 to +0.27)`. */
export function situationResultWords({ successes, trials, success, fieldSuccess, pointsAdded }: Results): string {
  if (trials === 0) return 'no play with a result';
  const share = shareWords({ count: successes, known: trials, interval: success?.interval ?? null, field: null });
  const beside =
    fieldSuccess === null
      ? []
      : fieldSuccess.known < FEWEST_FOR_PERCENT
        ? [`all calls ${fieldSuccess.count} of ${fieldSuccess.known}`]
        : [`all calls ${percent(fieldSuccess.share)}`];
  const range = pointsAdded?.interval ?? null;
  // Of a few plays the interval is as wide as the field.
  const points =
    pointsAdded === null || trials < FEWEST_FOR_PERCENT
      ? []
      : [
          `${signed(pointsAdded.mean)} expected points a play${range === null ? '' : ` (${signed(range.lower)} to ${signed(range.upper)})`}`,
        ];
  return [[`success ${share}`, ...beside].join(', '), ...points].join('; ');
}
