import { UNKNOWN_CODE, UNKNOWN_NUMBER, type PlayColumns } from '../charting/play-columns.js';
import { assertPositive } from '../statistics/guards.js';
import type { Classification } from './situations.js';

/** When the clock and the score change what a team calls. Versioned, and frozen into every report made with it. */
export interface ClockSettings {
  readonly version: number;
  /** Length of the quarter that the next two are meant for, in seconds; shorter quarters scale them down. */
  readonly fullQuarterSeconds: number;
  readonly twoMinuteSeconds: number;
  readonly fourMinuteSeconds: number;
  /** Seconds one possession takes; not scaled, since a drive takes as long in a short quarter. */
  readonly possessionSeconds: number;
  /** The most that one possession can score. */
  readonly pointsPerPossession: number;
}

/** Common practice, no source. */
export const DEFAULT_CLOCK_SETTINGS: ClockSettings = {
  version: 1,
  fullQuarterSeconds: 900,
  twoMinuteSeconds: 120,
  fourMinuteSeconds: 240,
  possessionSeconds: 150,
  pointsPerPossession: 8,
};

const NAMES = [
  'normal',
  'two-minute before the half',
  'two-minute trailing',
  'two-minute tied',
  'four-minute ahead',
  'out of reach',
  'overtime',
] as const;
type ClockSituation = (typeof NAMES)[number];

/**
 * The situation of each play by clock and score, from the view of the side with the ball; a classification of its own,
 * beside down and distance. Common practice, no source.
 *
 * Out of reach comes first: the margin is more than `pointsPerPossession` times the possessions that the trailing side
 * still gets, which are the current or next one and one for every two possessions' time left in regulation. Then, both
 * scaled by the length of a quarter: the last two minutes of the first half; in the fourth quarter the last two minutes
 * when trailing or tied, and the last four when ahead. Overtime stands apart, everything else is normal.
 *
 * Reads quarter, clockSeconds and scoreDifference.
 *
 * @param quarterSeconds - length of a quarter in the games of the batch, in seconds, above 0
 * @returns -1 where quarter, clock or score is unknown; in overtime the quarter is enough
 * @throws DomainError `stats.invalid_number`
 */
export function clockSituationCodes(
  plays: PlayColumns,
  settings: ClockSettings,
  quarterSeconds: number,
): Classification {
  assertPositive('quarterSeconds', quarterSeconds);
  assertPositive('fullQuarterSeconds', settings.fullQuarterSeconds);
  assertPositive('twoMinuteSeconds', settings.twoMinuteSeconds);
  assertPositive('fourMinuteSeconds', settings.fourMinuteSeconds);
  assertPositive('possessionSeconds', settings.possessionSeconds);
  assertPositive('pointsPerPossession', settings.pointsPerPossession);
  const quarters = plays.number('quarter').values;
  const clocks = plays.number('clockSeconds').values;
  const scores = plays.number('scoreDifference').values;
  const codes = new Int8Array(plays.count).fill(UNKNOWN_CODE);
  for (let play = 0; play < plays.count; play += 1) {
    const quarter = quarters[play] ?? UNKNOWN_NUMBER;
    const clock = clocks[play] ?? UNKNOWN_NUMBER;
    const score = scores[play] ?? UNKNOWN_NUMBER;
    if (quarter > 4) codes[play] = NAMES.indexOf('overtime');
    else if (quarter !== UNKNOWN_NUMBER && clock !== UNKNOWN_NUMBER && score !== UNKNOWN_NUMBER) {
      codes[play] = NAMES.indexOf(clockSituation(quarter, clock, score, settings, quarterSeconds));
    }
  }
  return { codes, names: NAMES };
}

function clockSituation(
  quarter: number,
  clock: number,
  score: number,
  settings: ClockSettings,
  quarterSeconds: number,
): ClockSituation {
  const secondsLeft = (4 - quarter) * quarterSeconds + clock;
  const possessionsLeft = 1 + Math.floor(secondsLeft / (2 * settings.possessionSeconds));
  if (Math.abs(score) > settings.pointsPerPossession * possessionsLeft) return 'out of reach';

  const withinLast = (seconds: number): boolean => clock * settings.fullQuarterSeconds <= seconds * quarterSeconds;
  if (quarter === 2 && withinLast(settings.twoMinuteSeconds)) return 'two-minute before the half';
  if (quarter !== 4) return 'normal';
  if (score > 0) return withinLast(settings.fourMinuteSeconds) ? 'four-minute ahead' : 'normal';
  if (!withinLast(settings.twoMinuteSeconds)) return 'normal';
  return score < 0 ? 'two-minute trailing' : 'two-minute tied';
}
