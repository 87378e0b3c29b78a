import { UNKNOWN_NUMBER } from '../charting/play-columns.js';
import type { TendencyPlays } from '../tendencies/tendency-plays.js';

/** Quarters of a game, overtime left out. */
export const QUARTERS = 4;
export const DOWNS = 4;

/** For down d and quarter q (from 1) the snaps of one player with the ball in a game, by situation. */
export type ExpectedSnaps = (down: number, quarter: number) => Float64Array;

/**
 * How many snaps that count one player has with the ball in a game, by down, quarter and situation, as the archive has it.
 *
 * @param facts - whole charts, both sides of the ball
 * @param games - how many charts they are, ≥ 0
 * @returns for down d and quarter q (from 1) the expected snaps by situation; zeros where nothing is charted
 */
export function expectedSnaps(
  { plays, situation, situationNames, counts }: TendencyPlays,
  games: number,
): ExpectedSnaps {
  const situations = situationNames.length;
  const sums = new Float64Array(DOWNS * QUARTERS * situations);
  const downs = plays.number('down').values;
  const quarters = plays.number('quarter').values;
  for (let play = 0; play < counts.length; play += 1) {
    const [down, quarter] = [downs[play] ?? UNKNOWN_NUMBER, quarters[play] ?? UNKNOWN_NUMBER];
    const code = situation[play] ?? -1;
    if (counts[play] !== 1 || code < 0 || down < 1 || down > DOWNS || quarter < 1 || quarter > QUARTERS) continue;
    const cell = ((down - 1) * QUARTERS + quarter - 1) * situations + code;
    sums[cell] = (sums[cell] ?? 0) + 1;
  }
  return (down, quarter) => {
    const from = ((down - 1) * QUARTERS + quarter - 1) * situations;
    return sums.slice(from, from + situations).map((sum) => (games === 0 ? 0 : sum / (2 * games)));
  };
}
