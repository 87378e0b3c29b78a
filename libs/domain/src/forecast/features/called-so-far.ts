import type { FeatureColumn } from './feature-column.js';
import { visitPlayerGames, type PlaysInGames } from './player-games.js';

interface CalledPlays extends PlaysInGames {
  /** Ascending places of the plays with a known outcome. */
  readonly rows: Int32Array;
}

/** How many plays the player called earlier in this game, and which share of them went to the second of two classes. */
export function calledSoFar({ rows, ...plays }: CalledPlays): readonly FeatureColumn[] {
  const calls = new Float64Array(plays.game.length).fill(Number.NaN);
  const share = new Float64Array(plays.game.length).fill(Number.NaN);
  const begin = (): { calls: number; ofSecond: number } => ({ calls: 0, ofSecond: 0 });
  visitPlayerGames(plays, rows, begin, (row, soFar) => {
    calls[row] = soFar.calls;
    if (soFar.calls > 0) share[row] = soFar.ofSecond / soFar.calls;
    soFar.calls += 1;
    soFar.ofSecond += plays.outcome[row] ?? 0;
  });
  return [
    { name: 'calls so far', kind: 'number', values: calls },
    { name: 'share so far', kind: 'number', values: share },
  ];
}
