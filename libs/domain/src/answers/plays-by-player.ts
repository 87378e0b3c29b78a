import type { Side } from '../tendencies/tendency-plays.js';
import type { AnswerModel } from './answer-model.js';

/** Plays in the order of their players: those of one lie between two starts. */
interface SortedPlays {
  readonly places: Int32Array;
  readonly starts: Int32Array;
}

const SORTED = new WeakMap<AnswerModel, Partial<Record<Side, SortedPlays>>>();

/**
 * Ascending places of a player's plays on a side of the ball, of those that take part. Sorted once a model: an archive of
 * a million plays is not passed over for each of its players.
 *
 * @param player - number, ≥ 0
 */
export function playsOfPlayer(model: AnswerModel, side: Side, player: number): Int32Array {
  const kept = SORTED.get(model) ?? {};
  SORTED.set(model, kept);
  const { places, starts } = (kept[side] ??= sortedByPlayer(model, side));
  return places.subarray(starts[player] ?? 0, starts[player + 1] ?? 0);
}

function sortedByPlayer({ coded, takesPart }: AnswerModel, side: Side): SortedPlays {
  const whose = coded[side];
  const starts = new Int32Array(coded.players + 1);
  for (let play = 0; play < whose.length; play += 1) {
    const player = whose[play] ?? -1;
    if (player >= 0 && takesPart[play] === 1) starts[player + 1] = (starts[player + 1] ?? 0) + 1;
  }
  for (let player = 0; player < coded.players; player += 1) {
    starts[player + 1] = (starts[player + 1] ?? 0) + (starts[player] ?? 0);
  }
  const places = new Int32Array(starts[coded.players] ?? 0);
  const next = starts.slice();
  for (let play = 0; play < whose.length; play += 1) {
    const player = whose[play] ?? -1;
    if (player < 0 || takesPart[play] !== 1) continue;
    const at = next[player] ?? 0;
    places[at] = play;
    next[player] = at + 1;
  }
  return { places, starts };
}
