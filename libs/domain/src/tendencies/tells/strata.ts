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
  /** Game of each group, numbered from 0. */
  readonly games: Int32Array;
  /** Situation of each group: place in the batch's names. */
  readonly situations: Int32Array;
  /**
   * Of each group, which other groups its plays are compared with where they are alone: those of the same number, which
   * follow each other. They are of the same situation and of the same player.
   */
  readonly pools: Int32Array;
  readonly gameCount: number;
  /** Counting plays left out because their situation is not known: nothing could be held there. */
  readonly withoutSituation: number;
}

/**
 * Groups a batch. Two charts of one game are one game.
 *
 * @param playerOf - left out for plays of one and the same player; for everybody's the number of each play's player, -1
 *   unknown. The two players of a game are kept apart then, as two games, and plays that are alone in theirs are compared
 *   among one player's only, so that nobody's habits can explain why a cue and a call go together
 */
export function strataOf(facts: TendencyPlays, playerOf?: Int32Array): Strata {
  const { plays, situation, situationNames, counts } = facts;
  const { gameOf, games, firstOf } = gamesByPlayer(facts, playerOf);

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
    const key = at * games + gameOf(play);
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
    pools: Int32Array.from(used, (key) => key - (key % games) + (firstOf[key % games] ?? 0)),
    gameCount: games,
    withoutSituation,
  };
}

interface NumberedGames {
  readonly gameOf: (play: number) => number;
  readonly games: number;
  /** Of each game the first of the same player's, which all follow each other. */
  readonly firstOf: Int32Array;
}

function gamesByPlayer({ plays }: TendencyPlays, playerOf: Int32Array | undefined): NumberedGames {
  const gameNumbers = new Map<string, number>();
  const gameOfChart = plays.charts.map(({ gameId }) => {
    const number = gameNumbers.get(gameId) ?? gameNumbers.size;
    gameNumbers.set(gameId, number);
    return number;
  });
  const numberOf = (play: number): number => gameOfChart[plays.chartIndex[play] ?? 0] ?? 0;
  if (playerOf === undefined) {
    return { gameOf: numberOf, games: gameNumbers.size, firstOf: new Int32Array(gameNumbers.size) };
  }
  const games = 2 * gameNumbers.size;
  const sideOf = (play: number): number => 2 * numberOf(play) + (plays.offenseIsHome[play] ?? 0);
  const playerOfSide = new Int32Array(games).fill(-1);
  for (let play = 0; play < plays.count; play += 1) playerOfSide[sideOf(play)] = playerOf[play] ?? -1;
  const ordered = Array.from(playerOfSide.keys()).sort(
    (one, other) => (playerOfSide[one] ?? -1) - (playerOfSide[other] ?? -1) || one - other,
  );
  const [rankOf, firstOf] = [new Int32Array(games), new Int32Array(games)];
  ordered.forEach((side, rank) => {
    rankOf[side] = rank;
    const player = playerOfSide[side] ?? -1;
    const isSame = player >= 0 && rank > 0 && playerOfSide[ordered[rank - 1] ?? -1] === player;
    firstOf[rank] = isSame ? (firstOf[rank - 1] ?? 0) : rank;
  });
  return { gameOf: (play) => rankOf[sideOf(play)] ?? 0, games, firstOf };
}
