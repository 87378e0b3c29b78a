import { UNKNOWN_NUMBER, type PlayColumns } from '../../charting/play-columns.js';
import { halves, UNKNOWN_HALF } from '../../football/expected-points-halves.js';
import { playOrder } from '../../football/play-order.js';
import type { TendencyPlays } from '../tendency-plays.js';
import type { Answers } from './counted-share.js';

/**
 * Whether a side used a timeout between the play before it in the batch and each play, from the timeouts it had left: 1
 * used at least one, 0 none, -1 where either number is unknown, the half is another or unknown, or there is no play
 * before. Timeouts of plays left out of the batch fall to the next play in it.
 *
 * @param side - the asked side of the ball; the whole batch must show it on that side
 */
export function usedTimeout({ plays }: TendencyPlays, side: 'offense' | 'defense'): Answers {
  const left = timeoutsLeft(plays, side);
  const half = halves(plays);
  const answers = new Int8Array(plays.count).fill(-1);
  let before = -1;
  for (const play of playOrder(plays)) {
    const [was, is] = [left[before] ?? UNKNOWN_NUMBER, left[play] ?? UNKNOWN_NUMBER];
    const joined = before >= 0 && plays.chartIndex[before] === plays.chartIndex[play] && half[before] === half[play];
    if (joined && half[play] !== UNKNOWN_HALF && was !== UNKNOWN_NUMBER && is !== UNKNOWN_NUMBER) {
      answers[play] = is < was ? 1 : 0;
    }
    before = play;
  }
  return answers;
}

/** What a side still had at the last charted play of a half. */
export interface TimeoutsKept {
  /** 1 or 2. */
  readonly half: number;
  /** 0 to 3, at the play cited. */
  readonly left: number;
  /** Place of that play in the batch. */
  readonly play: number;
}

/** Timeouts left at the last play of each half of regulation that knows them: those lie unused, or went untold. */
export function timeoutsKept({ plays }: TendencyPlays, side: 'offense' | 'defense'): TimeoutsKept[] {
  const left = timeoutsLeft(plays, side);
  const half = halves(plays);
  const last = new Map<string, TimeoutsKept>();
  for (const play of playOrder(plays)) {
    const [now, remaining] = [half[play] ?? UNKNOWN_HALF, left[play] ?? UNKNOWN_NUMBER];
    if (now < 1 || now > 2 || remaining === UNKNOWN_NUMBER) continue;
    last.set(`${plays.chartIndex[play] ?? -1}/${now}`, { half: now, left: remaining, play });
  }
  return [...last.values()];
}

function timeoutsLeft(plays: PlayColumns, side: 'offense' | 'defense'): Int16Array {
  return plays.number(side === 'offense' ? 'offenseTimeouts' : 'defenseTimeouts').values;
}
