import type { DimensionName, DimensionValue } from '../dimension-names.js';
import type { VersionChange } from '../drift/change-of-version.js';
import type { DimensionDrift, DriftedShare } from '../drift/drift.js';
import type { CountedShare } from '../decisions/counted-share.js';
import { callVerb, callWords } from './call-verbs.js';
import { counted, FEWEST_FOR_PERCENT, percentRange, pValueWords, withCounts } from './count-words.js';
import { sentence, type Voice } from './voice.js';

/**
 * `call family: the mix moved (p 0.004, one of 6 mixes looked at), 3 games against 3 games`.
 *
 * @param mixes - looked at together, which is why a small p-value may not be enough
 */
export function dimensionDriftWords(drift: DimensionDrift, mixes: number): string {
  const { label, drifted, pValue, earlierGames, recentGames } = drift;
  const between = `${counted(earlierGames, 'game')} against ${counted(recentGames, 'game')}`;
  const moved = drifted ? 'the mix moved' : 'not shown to have moved';
  return `${label}: ${moved} (${pValueWords(pValue)}, ${oneOf(mixes, 'mix', 'mixes')} looked at), ${between}`;
}

function oneOf(count: number, one: string, several: string): string {
  return count === 1 ? `the only ${one}` : `one of ${count} ${several}`;
}

/** When the plays of either stretch were, as it stands behind their counts. */
export interface StretchWords {
  readonly earlier: string;
  readonly recent: string;
}

const BEFORE_AND_SINCE: StretchWords = { earlier: 'before', recent: 'since' };

/**
 * `pass 30 of 50, 48-71 %, before and 12 of 40, 20-43 %, since; moved (p 0.002, one of 31 shares of 6 mixes looked at)`.
 *
 * @param found - all that was looked at together, which is why a small p-value may not be enough
 * @param when  - `before` and `since` where left out
 */
export function driftedShareWords(
  dimension: DimensionName,
  { value, earlier, recent, moved, pValue }: DriftedShare,
  found: readonly DimensionDrift[],
  voice: Voice,
  when = BEFORE_AND_SINCE,
): string {
  const shares = found.reduce((sum, one) => sum + one.shares.length, 0);
  const among = `${oneOf(shares, 'share', 'shares')} of ${counted(found.length, 'mix', 'mixes')} looked at`;
  const notes = [`${moved ? 'moved' : 'not shown to have moved'} (${pValueWords(pValue)}, ${among})`];
  return sentence({ ...bothWords(dimension, value, earlier, recent, when), notes }, voice);
}

/** `pass 30 of 50 before and 12 of 40 since; field 200 of 400 before and 210 of 400 since; the player changed`. */
export function versionChangeWords(change: VersionChange, voice: Voice): string {
  const { dimension, value, earlier, recent, verdict } = change;
  const [before, since] = [earlier.field, recent.field];
  const field =
    before === null || since === null
      ? []
      : [`field ${before.count} of ${before.known} before and ${since.count} of ${since.known} since`];
  const counts = bothWords(dimension, value, earlier, recent, BEFORE_AND_SINCE);
  return sentence({ ...counts, notes: [...field, verdict] }, voice);
}

function bothWords(
  dimension: DimensionName,
  value: DimensionValue,
  earlier: CountedShare,
  recent: CountedShare,
  when: StretchWords,
): { readonly scout: string; readonly self: string } {
  const words = `${rangeWords(earlier)} ${when.earlier} and ${rangeWords(recent)} ${when.recent}`;
  return {
    scout: withCounts(callWords(dimension, value.label), words),
    self: withCounts(callVerb(dimension, value.label), words),
  };
}

function rangeWords({ count, known, raw }: CountedShare): string {
  const counts = `${count} of ${known}`;
  return raw === null || known < FEWEST_FOR_PERCENT ? counts : `${counts} (${percentRange(raw.interval)})`;
}

interface Period {
  readonly label: string;
  readonly games: number;
  readonly snaps: number;
}

/** Games a side below which no shuffle of whole games can stand out: of two and two there are six. */
const FEWEST_GAMES = 4;

/** What a comparison of two periods rests on, and where it cannot find anything. */
export function driftRestsOn(earlier: Period, recent: Period, unit: 'game' | 'half'): string[] {
  if (earlier.snaps === 0 || recent.snaps === 0) {
    const missing = earlier.snaps === 0 ? earlier.label : recent.label;
    return [`nothing to compare: no snap in "${missing}"`];
  }
  const words = [
    `${earlier.label}: ${counted(earlier.snaps, 'snap')} of ${counted(earlier.games, 'game')}`,
    `${recent.label}: ${counted(recent.snaps, 'snap')} of ${counted(recent.games, 'game')}`,
  ];
  const few = unit === 'game' ? Math.min(earlier.games, recent.games) < FEWEST_GAMES : recent.games < FEWEST_GAMES;
  return few ? [...words, 'so few games that hardly any change can be shown'] : words;
}
