import { UNKNOWN_CODE, UNKNOWN_NUMBER, type PlayColumns } from '../charting/play-columns.js';
import type { Vocabulary } from '../charting/vocabulary.js';
import { assertCount } from '../statistics/guards.js';
import { CALLED_RUN, calledCodes } from './called.js';
import { countsForResults } from './counted-snaps.js';
import { termMask } from './play-masks.js';

/** From how many yards a play is explosive. Versioned; to be printed on every report, since there is no standard. */
export interface ExplosiveThresholds {
  readonly version: number;
  /** Yards, 1 to 99; for carries and for scrambles. */
  readonly runYards: number;
  /** Yards, 1 to 99. */
  readonly passYards: number;
}

/** A run of 12 or more, a pass of 16 or more: usually credited to Billick (2001), Competitive Leadership. */
export const DEFAULT_EXPLOSIVE_THRESHOLDS: ExplosiveThresholds = { version: 1, runYards: 12, passYards: 16 };

/**
 * Whether each play was explosive: 1 yes, 0 no, -1 where it has no result that counts (see `countsForResults`), where
 * the chart does not settle it, or where the field does not allow it.
 *
 * The field does not allow it with fewer yards to the goal than the threshold: a touchdown from there is not called
 * explosive, and every other play from there is left out as well, so that a rate has plays in its denominator only
 * where the numerator was possible. For the same reason an unknown spot is -1 even when the gain was long: else the
 * plays with unknown spots would be explosive ones only.
 *
 * Yards decide, a lost fumble afterwards takes nothing away. What a play is follows its result (`rushed`, `scrambled`
 * and an aborted snap go by the run's threshold), then a called run; where neither is known a gain settles it only if it
 * is above or below both thresholds.
 *
 * Reads the fields of `countsForResults` and of `calledCodes`, and yardsGained and yardsToGoal.
 *
 * @param counts - as `countsForResults` says, and `called` as `calledCodes` does, where that is known already
 * @returns one code a play: 1, 0 or -1
 * @throws DomainError `stats.invalid_count` for a threshold that is no integer in 1 to 99; `football.play_type_missing`
 */
export function explosiveCodes(
  plays: PlayColumns,
  vocabulary: Vocabulary,
  thresholds: ExplosiveThresholds,
  counts = countsForResults(plays, vocabulary),
  called = calledCodes(plays, vocabulary),
): Int8Array {
  const { runYards, passYards } = thresholds;
  assertCount('runYards', runYards, { min: 1, max: 99 });
  assertCount('passYards', passYards, { min: 1, max: 99 });
  const carried = termMask(plays, 'snapResult', vocabulary, [
    'snapResult.rushed',
    'snapResult.scrambled',
    'snapResult.aborted-snap',
  ]);
  const thrown = termMask(plays, 'snapResult', vocabulary, ['snapResult.complete']);
  const noGain = termMask(plays, 'snapResult', vocabulary, [
    'snapResult.incomplete',
    'snapResult.intercepted',
    'snapResult.sacked',
  ]);
  const gains = plays.number('yardsGained').values;
  const yardsToGoal = plays.number('yardsToGoal').values;

  const explosive = new Int8Array(plays.count).fill(UNKNOWN_CODE);
  for (let play = 0; play < plays.count; play += 1) {
    if (counts[play] !== 1) continue;
    const goal = yardsToGoal[play] ?? UNKNOWN_NUMBER;
    const gain = noGain[play] === 1 ? 0 : (gains[play] ?? UNKNOWN_NUMBER);
    if (goal === UNKNOWN_NUMBER || gain === UNKNOWN_NUMBER) continue;

    const isPass = thrown[play] === 1 || noGain[play] === 1;
    const isRun = carried[play] === 1 || (!isPass && called[play] === CALLED_RUN);
    // A called pass without a result may have been a scramble, so that its threshold stays open.
    const lowest = isRun ? runYards : isPass ? passYards : Math.min(runYards, passYards);
    const highest = isRun ? runYards : isPass ? passYards : Math.max(runYards, passYards);
    const allowed = goal >= highest;
    if (allowed && gain >= highest) explosive[play] = 1;
    else if (allowed && gain < lowest) explosive[play] = 0;
  }
  return explosive;
}
