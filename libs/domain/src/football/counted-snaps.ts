import type { PlayColumns } from '../charting/play-columns.js';
import type { Vocabulary } from '../charting/vocabulary.js';
import { DomainError } from '../domain-error.js';
import { choiceMask, knownMask, termMask, type PlayMask } from './play-masks.js';

/** Families that are neither run nor pass: they are outside tendencies and success whatever the play type says. */
const FAMILIES_OUTSIDE = [
  'callFamily.kneel',
  'callFamily.spike',
  'callFamily.punt',
  'callFamily.field-goal',
  'callFamily.kickoff',
  'callFamily.onside-kick',
  'callFamily.free-kick',
  'callFamily.try-kick',
  'callFamily.two-point-try',
  'callFamily.fake-kick',
  'callFamily.no-call',
];

/** Fouls that stop the play before it starts, so that no call was ever run. */
const FOULS_BEFORE_THE_SNAP = ['foul.false-start', 'foul.delay-of-game', 'foul.neutral-zone-infraction'];

/**
 * Which snaps count towards shares of calls. Kneels, spikes, kicks (faked ones too), tries, aborted snaps and whatever
 * was dead before the snap are out. A snap that was replayed after a foul keeps its call and is in. Common practice, no
 * source.
 *
 * Reads playType, callFamily, snapResult, foul and foulTiming; a batch must carry them where the charts do.
 *
 * @returns one byte a play: 1 counts, 0 does not
 * @throws DomainError `football.play_type_missing` when a batch with plays carries no play type at all: it was left out
 *   when the batch was gathered, and every answer would be a silent 0
 */
export function countsForCalls(plays: PlayColumns, vocabulary: Vocabulary): Uint8Array {
  const counts = ordinarySnaps(plays, vocabulary);
  const aborted = termMask(plays, 'callFamily', vocabulary, ['callFamily.aborted']);
  const badSnap = termMask(plays, 'snapResult', vocabulary, ['snapResult.aborted-snap']);
  for (let play = 0; play < plays.count; play += 1) {
    if (aborted[play] === 1 || badSnap[play] === 1) counts[play] = 0;
  }
  return counts;
}

/**
 * Which snaps have a result that counts towards success, yards and explosive plays. As `countsForCalls`, except that a
 * snap without a result is out (no play, replayed, offset fouls) and an aborted snap is in: its call is not known, its
 * result is. A declined foul leaves the play as it stands. After an accepted foul the charted result stands unless the
 * chart says that it was no play or was replayed; with no result charted there is none. Common practice, no source.
 *
 * Reads the fields of `countsForCalls`, and replayed and foulAnswer.
 *
 * @returns one byte a play: 1 counts, 0 does not
 * @throws DomainError `football.play_type_missing`
 */
export function countsForResults(plays: PlayColumns, vocabulary: Vocabulary): Uint8Array {
  const counts = ordinarySnaps(plays, vocabulary);
  const noPlay = termMask(plays, 'snapResult', vocabulary, ['snapResult.no-play']);
  const hasResult = knownMask(plays, 'snapResult');
  const replayed = choiceMask(plays, 'replayed', ['yes']);
  const stands = choiceMask(plays, 'replayed', ['no']);
  const offset = choiceMask(plays, 'foulAnswer', ['offset']);
  const accepted = choiceMask(plays, 'foulAnswer', ['accepted']);
  for (let play = 0; play < plays.count; play += 1) {
    const nullified = noPlay[play] === 1 || replayed[play] === 1 || offset[play] === 1;
    const unclear = accepted[play] === 1 && hasResult[play] === 0 && stands[play] === 0;
    if (nullified || unclear) counts[play] = 0;
  }
  return counts;
}

/** Snaps from scrimmage that were played: no kick, try, kneel or spike, and not dead before the snap. */
function ordinarySnaps(plays: PlayColumns, vocabulary: Vocabulary): PlayMask {
  if (plays.count > 0 && !plays.columns.has('playType')) {
    throw new DomainError('football.play_type_missing', 'the batch carries no play type', { plays: plays.count });
  }
  const counts = choiceMask(plays, 'playType', ['scrimmage']);
  const outside = termMask(plays, 'callFamily', vocabulary, FAMILIES_OUTSIDE);
  const killed = termMask(plays, 'snapResult', vocabulary, ['snapResult.knelt', 'snapResult.spiked']);
  const dead = deadBeforeTheSnap(plays, vocabulary);
  for (let play = 0; play < plays.count; play += 1) {
    if (outside[play] === 1 || killed[play] === 1 || dead[play] === 1) counts[play] = 0;
  }
  return counts;
}

/**
 * Snaps that a foul stopped before they began. A foul before the snap that was declined leaves a result other than no
 * play; where there is such a result the ball was snapped.
 */
function deadBeforeTheSnap(plays: PlayColumns, vocabulary: Vocabulary): PlayMask {
  const dead = choiceMask(plays, 'foulTiming', ['before the snap']);
  const timed = knownMask(plays, 'foulTiming');
  const early = termMask(plays, 'foul', vocabulary, FOULS_BEFORE_THE_SNAP);
  const noPlay = termMask(plays, 'snapResult', vocabulary, ['snapResult.no-play']);
  const hasResult = knownMask(plays, 'snapResult');
  for (let play = 0; play < plays.count; play += 1) {
    if (timed[play] === 0 && early[play] === 1) dead[play] = 1;
    if (hasResult[play] === 1 && noPlay[play] === 0) dead[play] = 0;
  }
  return dead;
}
