import type { FeatureColumn } from './feature-column.js';

/** Whose plays in which game, and what was called; one entry a play of the batch, with two classes. */
interface CalledPlays {
  readonly game: Int32Array;
  /** Whose habit is forecast, -1 where unknown. */
  readonly player: Int32Array;
  /** Ascending places of the plays with a known outcome. */
  readonly rows: Int32Array;
  /** Class of each play, 0 or 1; read at `rows` only. */
  readonly outcome: Int32Array;
}

/** How many plays the player called earlier in this game, and which share of them went to the second class. */
export function calledSoFar({ game, player, rows, outcome }: CalledPlays): readonly FeatureColumn[] {
  const calls = new Float64Array(game.length).fill(Number.NaN);
  const share = new Float64Array(game.length).fill(Number.NaN);
  const soFar = new Map<number, { readonly calls: number; readonly ofSecond: number }>();
  let current = -1;
  for (const row of rows) {
    if (game[row] !== current) {
      current = game[row] ?? -1;
      soFar.clear();
    }
    const key = player[row] ?? -1;
    if (key < 0) continue;
    const own = soFar.get(key) ?? { calls: 0, ofSecond: 0 };
    calls[row] = own.calls;
    if (own.calls > 0) share[row] = own.ofSecond / own.calls;
    soFar.set(key, { calls: own.calls + 1, ofSecond: own.ofSecond + (outcome[row] ?? 0) });
  }
  return [
    { name: 'calls so far', kind: 'number', values: calls },
    { name: 'share so far', kind: 'number', values: share },
  ];
}
