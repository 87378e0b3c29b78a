import type { TendencyPlays } from '../tendency-plays.js';

/**
 * The counting plays in groups of one situation in one game. Within a group neither the situation nor the game's plan
 * can explain why a cue and a call go together.
 */
export interface Strata {
  /** Places of the plays in the batch, group by group, ascending within each. */
  readonly order: Int32Array;
  /** Group i is order[starts[i]] up to, not including, order[starts[i + 1]]; length is groups + 1. */
  readonly starts: Int32Array;
  /** Game of each group, numbered from 0 in the order of the batch. */
  readonly games: Int32Array;
  /** Situation of each group: place in the batch's names. */
  readonly situations: Int32Array;
  readonly gameCount: number;
  /** Counting plays left out because their situation is not known: nothing could be held there. */
  readonly withoutSituation: number;
}

/**
 * Groups a batch. Two charts of one game are one game.
 *
 * @param whose - `one player` for plays of one and the same player; `everybody` keeps the two players of a game apart, as
 *   two games, so that neither's habits can explain why a cue and a call go together
 */
export function strataOf(
  { plays, situation, situationNames, counts }: TendencyPlays,
  whose: 'one player' | 'everybody' = 'one player',
): Strata {
  const gameNumbers = new Map<string, number>();
  const gameOfChart = plays.charts.map(({ gameId }) => {
    const number = gameNumbers.get(gameId) ?? gameNumbers.size;
    gameNumbers.set(gameId, number);
    return number;
  });
  const sides = whose === 'everybody' ? 2 : 1;
  const games = sides * gameNumbers.size;

  // Counting sort: sizes, starts, then every play to its place.
  const sizes = new Int32Array(situationNames.length * games);
  const keys = new Int32Array(plays.count).fill(-1);
  let withoutSituation = 0;
  for (let play = 0; play < plays.count; play += 1) {
    if (counts[play] !== 1) continue;
    const at = situation[play] ?? -1;
    if (at < 0) {
      withoutSituation += 1;
      continue;
    }
    const side = sides === 2 ? (plays.offenseIsHome[play] ?? 0) : 0;
    const key = at * games + sides * (gameOfChart[plays.chartIndex[play] ?? 0] ?? 0) + side;
    keys[play] = key;
    sizes[key] = (sizes[key] ?? 0) + 1;
  }

  const used = Array.from(sizes.keys()).filter((key) => (sizes[key] ?? 0) > 0);
  const next = new Int32Array(sizes.length);
  const starts = new Int32Array(used.length + 1);
  used.forEach((key, group) => {
    next[key] = starts[group] ?? 0;
    starts[group + 1] = (starts[group] ?? 0) + (sizes[key] ?? 0);
  });
  const order = new Int32Array(starts.at(-1) ?? 0);
  for (let play = 0; play < keys.length; play += 1) {
    const key = keys[play] ?? -1;
    if (key < 0) continue;
    const to = next[key] ?? 0;
    order[to] = play;
    next[key] = to + 1;
  }
  return {
    order,
    starts,
    games: Int32Array.from(used, (key) => key % games),
    situations: Int32Array.from(used, (key) => Math.floor(key / games)),
    gameCount: games,
    withoutSituation,
  };
}
