import type { PlayColumns } from '../../charting/play-columns.js';
import type { Classification, SituationSettings } from '../../football/situations.js';
import type { Side } from '../tendency-plays.js';
import type { AskedPlays } from './asked-plays.js';
import type { CountedShare } from './counted-share.js';
import {
  calledRun,
  faked,
  hadTempo,
  kickedAtGoal,
  kickedOnside,
  tookTimeout,
  triedForTwo,
  wentForIt,
} from './decision-answers.js';
import {
  BY_HALF,
  BY_SCORE,
  byClassification,
  byDistance,
  byZone,
  partitionedShares,
  wholeShare,
  type AnswersOf,
  type Partition,
  type PartitionedShare,
} from './partitions.js';
import { snappedSooner, usualPace, type UsualPace } from './pace.js';
import { timeoutsKept, usedTimeout, type TimeoutsKept } from './timeouts.js';

export interface DecisionSettings {
  readonly situations: SituationSettings;
  /**
   * The situation by clock and score of a batch, made by whoever knows each game's quarter length: see
   * `clockSituationCodes`. Asked once for the player's plays and once for the field's.
   */
  readonly clock: (plays: PlayColumns) => Classification;
}

/** A decision in all and by part; every share stands beside the field's in the same part. */
export interface Decision {
  readonly all: CountedShare;
  readonly by: readonly PartitionedShare[];
}

export interface Decisions {
  /** Went for it on fourth down, of fourth downs with a decision; by distance, zone, score and clock. */
  readonly fourthDown: Decision;
  /** At goal, of fourth downs kicked; by zone, score and clock. */
  readonly kicksAtGoal: Decision;
  /** For two, of tries; by score before the try and clock. */
  readonly twoPointTries: Decision;
  /** Onside, of kickoffs of this player; by score and clock. */
  readonly onsideKicks: Decision;
  /** Fakes, of punts and kicks at goal; by distance, zone and score. */
  readonly fakes: Decision;
  /** Runs called, of runs and passes; by clock, which parts late leads from late deficits. */
  readonly runs: Decision;
  /** Snapped in a hurry (fast no-huddle, clock stop), of known tempos; by clock. */
  readonly hurry: Decision;
  /** Let the clock run down, of known tempos; by clock. */
  readonly burn: Decision;
  /** Took less of a running clock from snap to snap than the field usually does, of times known; by clock. */
  readonly sooner: Decision;
  /** What `sooner` is held against; null without a field that knows its clock. */
  readonly usualPace: UsualPace | null;
  readonly timeouts: Timeouts;
}

export interface Timeouts {
  /** Used one between the play before and this one, of plays that can tell; by half, score and clock of this one. */
  readonly used: Decision;
  /** Took one in the duel before the snap, of duels charted. */
  readonly inTheDuel: CountedShare;
  /** Left at the last charted play of each half. */
  readonly kept: readonly TimeoutsKept[];
}

export const HURRY = ['tempo.no-huddle-fast', 'tempo.clock-stop'];
export const BURN = ['tempo.clock-burn'];

/**
 * What the player decides: fourth downs, tries, onside kicks, fakes, tempo and run share by clock and score, and
 * timeouts where charted, each against the field with counts. A decision that the chart does not show is no decision
 * against; parts in which nothing is known are left out.
 *
 * Reads playType, down, distance, yardsToGoal, scoreDifference, callFamily, snapResult, fake, tempo, quarter, drive,
 * clockSeconds, clockRunning, the timeouts and preSnapAdjustments, and whatever the clock's classification reads.
 *
 * @param asked    - plays on which the player has the ball, kicks and tries included
 * @param settings - bands, zones and the clock
 * @throws DomainError `stats.invalid_probability`, `football.invalid_settings`
 * @see Wilson (1927), J. Am. Stat. Assoc. 22, 209–212
 */
export function decisions(asked: AskedPlays, settings: DecisionSettings): Decisions {
  const { vocabulary } = asked;
  const distance = byDistance(settings.situations);
  const zone = byZone(settings.situations);
  const clock = byClassification('clock', settings.clock);
  const decide = (answersOf: AnswersOf, partitions: readonly Partition[]): Decision => ({
    all: wholeShare(asked, answersOf),
    by: partitionedShares(asked, answersOf, partitions),
  });
  const usual = usualPace(asked.field, asked.player);
  return {
    fourthDown: decide((facts) => wentForIt(facts, vocabulary), [distance, zone, BY_SCORE, clock]),
    kicksAtGoal: decide((facts) => kickedAtGoal(facts, vocabulary), [zone, BY_SCORE, clock]),
    twoPointTries: decide(triedForTwo, [BY_SCORE, clock]),
    onsideKicks: decide((facts) => kickedOnside(facts, vocabulary), [BY_SCORE, clock]),
    fakes: decide((facts) => faked(facts, vocabulary), [distance, zone, BY_SCORE]),
    runs: decide(calledRun, [clock]),
    hurry: decide((facts) => hadTempo(facts, vocabulary, HURRY), [clock]),
    burn: decide((facts) => hadTempo(facts, vocabulary, BURN), [clock]),
    sooner: decide((facts) => snappedSooner(facts, usual), [clock]),
    usualPace: usual,
    timeouts: timeoutsOf('offense', asked, settings.clock),
  };
}

/**
 * The player's timeouts, with the ball or defending: same figures, other column.
 *
 * @param side  - of the ball; every play asked about must show the player on it
 * @param clock - as in the settings of `decisions`
 * @throws DomainError `stats.invalid_probability`
 */
export function timeoutsOf(side: Side, asked: AskedPlays, clock: DecisionSettings['clock']): Timeouts {
  const answersOf: AnswersOf = (facts) => usedTimeout(facts, side);
  return {
    used: {
      all: wholeShare(asked, answersOf),
      by: partitionedShares(asked, answersOf, [BY_HALF, BY_SCORE, byClassification('clock', clock)]),
    },
    inTheDuel: wholeShare(asked, (facts) => tookTimeout(facts, asked.vocabulary, side)),
    kept: timeoutsKept(asked.facts, side),
  };
}
