import { UNKNOWN_NUMBER } from '../../charting/play-columns.js';
import { choiceMask } from '../../football/play-masks.js';
import type { TendencyPlays } from '../tendency-plays.js';
import { previousSnaps } from '../sequences/successive-snaps.js';
import { othersPlaces, type FieldPlays } from './asked-plays.js';
import type { Answers } from './counted-share.js';
import { usedTimeout } from './timeouts.js';

const UNKNOWN_SECONDS = -1;

/** What the others take from snap to snap while the clock runs. */
export interface UsualPace {
  /** The lower median of the seconds of game clock. */
  readonly seconds: number;
  /** Snaps that it rests on. */
  readonly known: number;
}

/**
 * Seconds of game clock from the snap before to each counting snap, where the clock ran in between: -1 where the clock of
 * either is unknown, the clock stood or nobody says that it ran, or the snap before is of another drive, quarter or none.
 * Where something was between the two that takes time of its own, such as a kneel, a spike, a dead ball, a foul on the
 * snap before or a timeout of either side, that is no pace, and -1 as well. No field holds the time from snap to snap, so
 * it is told by the clock; video seconds would count cuts and replays.
 *
 * Reads clockSeconds, clockRunning, quarter, drive, foul, foulSide and the timeouts of both sides.
 */
export function clockTaken(facts: TendencyPlays): Int16Array {
  const { plays } = facts;
  const clocks = plays.number('clockSeconds').values;
  const quarters = plays.number('quarter').values;
  const running = choiceMask(plays, 'clockRunning', ['yes']);
  const fouls = [plays.code('foul').codes, plays.code('foulSide').codes];
  const timeouts = [usedTimeout(facts, 'offense'), usedTimeout(facts, 'defense')];
  const previous = previousSnaps(facts, 'drive');
  return Int16Array.from(previous, (before, play) => {
    if (before < 0 || running[play] !== 1 || quarters[before] !== quarters[play]) return UNKNOWN_SECONDS;
    if (plays.orderInGame[play] !== (plays.orderInGame[before] ?? 0) + 1) return UNKNOWN_SECONDS;
    if (fouls.some((codes) => (codes[before] ?? -1) >= 0)) return UNKNOWN_SECONDS;
    if (timeouts.some((used) => used[play] === 1)) return UNKNOWN_SECONDS;
    const [was, is] = [clocks[before] ?? UNKNOWN_NUMBER, clocks[play] ?? UNKNOWN_NUMBER];
    return was === UNKNOWN_NUMBER || is === UNKNOWN_NUMBER || is > was ? UNKNOWN_SECONDS : was - is;
  });
}

/** @returns null without a field, or where its clock was not charted */
export function usualPace(field: FieldPlays | null, player: number): UsualPace | null {
  if (field === null) return null;
  const taken = clockTaken(field.facts);
  const seconds = Int16Array.from(othersPlaces(field, player), (play) => taken[play] ?? UNKNOWN_SECONDS)
    .filter((value) => value !== UNKNOWN_SECONDS)
    .sort();
  const middle = seconds[(seconds.length - 1) >> 1];
  return middle === undefined ? null : { seconds: middle, known: seconds.length };
}

/** Snaps with a known time from the snap before: 1 where it was less than the field's usual one. */
export function snappedSooner(facts: TendencyPlays, usual: UsualPace | null): Answers {
  if (usual === null) return new Int8Array(facts.plays.count).fill(-1);
  return Int8Array.from(clockTaken(facts), (seconds) =>
    seconds === UNKNOWN_SECONDS ? -1 : seconds < usual.seconds ? 1 : 0,
  );
}
