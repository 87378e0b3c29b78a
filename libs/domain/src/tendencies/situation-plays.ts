import { ALL_SNAPS, type SituationKey } from './situation-keys.js';
import type { TendencyPlays } from './tendency-plays.js';

/**
 * The counting plays of each situation as ascending places in the batch: all snaps first, then each situation of the
 * batch's list in its order. Situations without plays are there, and empty.
 *
 * @param among - ascending places of the plays to look at; the whole batch when left out
 */
export function situationPlays(
  { situation, situationNames, counts }: TendencyPlays,
  among: Int32Array = new Int32Array(counts.length).map((_, play) => play),
): ReadonlyMap<SituationKey, Int32Array> {
  const sizes = new Int32Array(situationNames.length);
  const all = new Int32Array(among.length);
  let size = 0;
  for (const play of among) {
    if (counts[play] !== 1) continue;
    all[size++] = play;
    const code = situation[play] ?? -1;
    if (code >= 0) sizes[code] = (sizes[code] ?? 0) + 1;
  }
  const snaps = all.subarray(0, size);

  const parts = Array.from(sizes, (length) => new Int32Array(length));
  const filled = new Int32Array(situationNames.length);
  for (const play of snaps) {
    const code = situation[play] ?? -1;
    const part = parts[code];
    if (part === undefined) continue;
    const at = filled[code] ?? 0;
    part[at] = play;
    filled[code] = at + 1;
  }
  const named = situationNames.map((name, code) => [name, parts[code] ?? new Int32Array(0)] as const);
  return new Map([[ALL_SNAPS, snaps], ...named]);
}
