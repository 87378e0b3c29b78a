import { UNKNOWN_CODE, UNKNOWN_NUMBER, type PlayColumns } from '../charting/play-columns.js';
import type { Vocabulary } from '../charting/vocabulary.js';
import { assertCount, assertLength } from '../statistics/guards.js';
import { countsForResults } from './counted-snaps.js';
import { choiceMask, listMask, termMask } from './play-masks.js';

/** How much of the distance a snap must gain to be a success. Versioned, since every published rule differs a little. */
export interface SuccessThresholds {
  readonly version: number;
  /** Whole percent of the distance, one for each down: 4 entries, each 1 to 100. */
  readonly percentOfDistance: readonly number[];
}

/** 40, 60 and 100 percent: Carroll, Palmer and Thorn (1988), The Hidden Game of Football. */
export const DEFAULT_SUCCESS_THRESHOLDS: SuccessThresholds = { version: 1, percentOfDistance: [40, 60, 100, 100] };

export interface SnapOutcome {
  /** 1 to 4. */
  readonly down: number;
  /** Yards to the line to gain, 1 to 99. */
  readonly distance: number;
  readonly yardsGained: number;
  readonly firstDownOrTouchdown: boolean;
  readonly turnover: boolean;
}

/**
 * Whether one snap was a success: it gained its share of the distance, exactly that share included. A first down or a
 * touchdown always is one, a turnover never is, even after a first down. Compared in whole numbers, since in floating
 * point 0.7 × 90 is below 63 and equality would be lost. On fourth down meant for snaps that went for it.
 *
 * @throws DomainError `stats.invalid_count` for a down outside 1 to 4 or a percentage that is no integer in 1 to 100
 * @throws DomainError `stats.invalid_shape` unless there are four percentages
 * @see Carroll, Palmer and Thorn (1988), The Hidden Game of Football
 */
export function isSuccess(snap: SnapOutcome, thresholds: SuccessThresholds): boolean {
  assertThresholds(thresholds);
  assertCount('down', snap.down, { min: 1, max: 4 });
  if (snap.turnover) return false;
  return snap.firstDownOrTouchdown || gainsEnough(snap.down, snap.distance, snap.yardsGained, thresholds);
}

/**
 * Success of each play: 1 success, 0 not, -1 where the snap has no result that counts (see `countsForResults`) or the
 * chart does not settle it. Half-filled plays are settled where one fact is enough: a turnover, a safety, a touchdown,
 * a first down, a sack, an incompletion.
 *
 * Turnovers that nobody noted cannot be seen: where the list of what the snap led to is unknown, the yards decide. With
 * an accepted foul the snap's own yards decide and not the first down, which the foul may have given. Both rules are
 * common practice, no source.
 *
 * Reads the fields of `countsForResults`, and down, distance, yardsToGoal, yardsGained and ledTo.
 *
 * @param counts - as `countsForResults` says, where that is known already
 * @returns one code a play: 1, 0 or -1
 * @throws DomainError `stats.invalid_count`, `stats.invalid_shape`, `football.play_type_missing`
 */
export function successCodes(
  plays: PlayColumns,
  vocabulary: Vocabulary,
  thresholds: SuccessThresholds,
  counts = countsForResults(plays, vocabulary),
): Int8Array {
  assertThresholds(thresholds);
  const lost = lostBall(plays, vocabulary);
  const touchdown = listMask(plays, 'ledTo', vocabulary, ['ledTo.touchdown-offense']);
  const firstDown = listMask(plays, 'ledTo', vocabulary, ['ledTo.first-down-gained']);
  const accepted = choiceMask(plays, 'foulAnswer', ['accepted']);
  const noGain = termMask(plays, 'snapResult', vocabulary, ['snapResult.incomplete', 'snapResult.sacked']);
  const downs = plays.number('down').values;
  const distances = plays.number('distance').values;
  const gains = plays.number('yardsGained').values;
  const yardsToGoal = plays.number('yardsToGoal').values;

  const success = new Int8Array(plays.count).fill(UNKNOWN_CODE);
  for (let play = 0; play < plays.count; play += 1) {
    if (counts[play] !== 1) continue;
    const down = downs[play] ?? UNKNOWN_NUMBER;
    const distance = distances[play] ?? UNKNOWN_NUMBER;
    const gain = gains[play] ?? UNKNOWN_NUMBER;
    const goal = yardsToGoal[play] ?? UNKNOWN_NUMBER;
    const scored = gain !== UNKNOWN_NUMBER && goal !== UNKNOWN_NUMBER && gain >= goal;
    const measured = down !== UNKNOWN_NUMBER && distance !== UNKNOWN_NUMBER && gain !== UNKNOWN_NUMBER;
    if (lost[play] === 1) success[play] = 0;
    else if (touchdown[play] === 1 || scored) success[play] = 1;
    else if (firstDown[play] === 1 && accepted[play] === 0) success[play] = 1;
    else if (measured) success[play] = gainsEnough(down, distance, gain, thresholds) ? 1 : 0;
    else if (noGain[play] === 1) success[play] = 0;
  }
  return success;
}

/** Snaps after which the offense no longer has the ball, short of scoring itself. */
function lostBall(plays: PlayColumns, vocabulary: Vocabulary): Uint8Array {
  const lost = termMask(plays, 'snapResult', vocabulary, ['snapResult.intercepted']);
  const ledTo = listMask(plays, 'ledTo', vocabulary, [
    'ledTo.fumble-lost',
    'ledTo.safety-scored',
    'ledTo.touchdown-defense-or-return',
    'ledTo.turnover-on-downs',
  ]);
  for (let play = 0; play < plays.count; play += 1) {
    if (ledTo[play] === 1) lost[play] = 1;
  }
  return lost;
}

function gainsEnough(down: number, distance: number, gain: number, { percentOfDistance }: SuccessThresholds): boolean {
  return 100 * gain >= (percentOfDistance[down - 1] ?? 100) * distance;
}

function assertThresholds({ percentOfDistance }: SuccessThresholds): void {
  assertLength('percentOfDistance', percentOfDistance, { min: 4, max: 4 });
  for (const percent of percentOfDistance) assertCount('percentOfDistance', percent, { min: 1, max: 100 });
}
