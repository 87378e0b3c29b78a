import { UNKNOWN_CODE } from '../../charting/play-columns.js';

/** Codes of the grouped plays with whatever is too rare to judge put together as one. */
export interface Levels {
  /** One a grouped play, in the order of the groups: a level, -1 unknown. */
  readonly codes: Int16Array;
  /** Levels in use: those of `kept`, then the rest where there is any. */
  readonly count: number;
  /** The code of each level in the batch; the rest, being no value, has none. */
  readonly kept: readonly number[];
}

/**
 * Brings codes into the order of the groups. Which values are kept is decided by how often they occur, never by what
 * went with them. The rest stays in the tables: "without the cue" means without it, not without anything rare.
 *
 * @param codes  - one a play of the batch, -1 unknown
 * @param values - codes are below this
 * @param order  - places of the grouped plays
 * @param enough - whether a value that occurs so often, of so many known, is kept
 */
export function levelsOf(
  codes: Int16Array,
  values: number,
  order: Int32Array,
  enough: (plays: number, known: number, value: number) => boolean,
): Levels {
  const plays = new Int32Array(values);
  let known = 0;
  for (const play of order) {
    const code = codes[play] ?? UNKNOWN_CODE;
    if (code < 0) continue;
    plays[code] = (plays[code] ?? 0) + 1;
    known += 1;
  }

  const kept = Array.from(plays.keys()).filter((value) => enough(plays[value] ?? 0, known, value));
  const rest = kept.length;
  const levelOf = new Int16Array(values).fill(rest);
  kept.forEach((value, level) => {
    levelOf[value] = level;
  });
  const hasRest = kept.reduce((sum, value) => sum + (plays[value] ?? 0), 0) < known;
  const levels = new Int16Array(order.length);
  for (let at = 0; at < order.length; at += 1) {
    const code = codes[order[at] ?? 0] ?? UNKNOWN_CODE;
    levels[at] = code < 0 ? UNKNOWN_CODE : (levelOf[code] ?? rest);
  }
  return { codes: levels, count: kept.length + (hasRest ? 1 : 0), kept };
}
