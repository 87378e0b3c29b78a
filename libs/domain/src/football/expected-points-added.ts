import { UNKNOWN_NUMBER, type PlayColumns } from '../charting/play-columns.js';
import type { Vocabulary } from '../charting/vocabulary.js';
import { clockSituationCodes, type ClockSettings } from './clock-situations.js';
import type { ExpectedPointsChain } from './expected-points-chain.js';
import { STEP_ENDS, STEP_LOSES, STEP_UNKNOWN, scoringSteps } from './expected-points-steps.js';

/**
 * Stands where expected points are not known, in place of NaN, which would spread through sums unseen. Outside every
 * value that expected points can take, so that a forgotten check shows at once.
 */
export const UNKNOWN_POINTS = UNKNOWN_NUMBER;

/** Expected points around each play, in points of the side with the ball; UNKNOWN_POINTS where not known. */
export interface ExpectedPointsOfPlays {
  readonly before: Float64Array;
  /** After the play, still from the view of the side that had the ball; the points themselves after a score. */
  readonly after: Float64Array;
  /** `after` less `before`. Along plays that follow each other the sum is what stood at the end less the start. */
  readonly added: Float64Array;
}

/**
 * Expected points before and after each play and what it added. Before is known wherever down, distance and spot are, on
 * a play from scrimmage, a punt or a kick at goal; after needs the play that follows, so give whole charts and pick a
 * player's plays afterwards. A replayed down adds what its foul moved.
 *
 * Not for success or shares, which have rules of their own on what counts.
 *
 * @param plays - whole charts; reads the fields of `scoringSteps`
 * @throws DomainError `football.play_type_missing`
 */
export function expectedPointsOfPlays(
  plays: PlayColumns,
  vocabulary: Vocabulary,
  chain: ExpectedPointsChain,
): ExpectedPointsOfPlays {
  const { kind, points, next, hasState } = scoringSteps(plays, vocabulary);
  const downs = plays.number('down').values;
  const distances = plays.number('distance').values;
  const yardsToGoal = plays.number('yardsToGoal').values;
  const before = new Float64Array(plays.count).fill(UNKNOWN_POINTS);
  const after = new Float64Array(plays.count).fill(UNKNOWN_POINTS);
  const added = new Float64Array(plays.count).fill(UNKNOWN_POINTS);
  for (let play = 0; play < plays.count; play += 1) {
    if (hasState[play] === 1) {
      before[play] = chain.points(downs[play] ?? 0, distances[play] ?? 0, yardsToGoal[play] ?? 0);
    }
  }
  for (let play = 0; play < plays.count; play += 1) {
    if (kind[play] === STEP_UNKNOWN) continue;
    const follows = before[next[play] ?? -1] ?? 0;
    const stands = kind[play] === STEP_ENDS ? (points[play] ?? 0) : kind[play] === STEP_LOSES ? -follows : follows;
    after[play] = stands;
    added[play] = stands - (before[play] ?? 0);
  }
  return { before, after, added };
}

/**
 * Which plays were run with the game out of reach, for the fit to leave out: sides then play for the clock and not for
 * points. See `clockSituationCodes` for the rule; where quarter, clock or score is unknown nothing is left out.
 *
 * @param quarterSeconds - length of a quarter in the games of the batch, in seconds, above 0
 * @returns one byte a play: 1 out of reach
 * @throws DomainError `stats.invalid_number`
 */
export function outOfReachMask(plays: PlayColumns, settings: ClockSettings, quarterSeconds: number): Uint8Array {
  const { codes, names } = clockSituationCodes(plays, settings, quarterSeconds);
  const lost = names.indexOf('out of reach');
  return Uint8Array.from(codes, (code) => (code === lost ? 1 : 0));
}
