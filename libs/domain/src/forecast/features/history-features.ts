import type { FeatureColumn } from './feature-column.js';

/** Plays that belong together, such as those of one player on one down: one key a play, -1 for none. */
export interface HistoryGroup {
  readonly name: string;
  readonly keys: Int32Array;
  /** Games after which a game counts half; infinite for no forgetting. Counted in the group's own games. */
  readonly halfLife: number;
  /** Plays' worth of "as expected" that every group starts with. */
  readonly prior: number;
  /** Whether it learns within the game and forgets it at the end, or learns whole games and lasts. */
  readonly span: 'game' | 'career';
}

/** What a history is made of. Arrays are one a play of the batch; `expected` is plays x classes. */
export interface HistoryFacts {
  readonly game: Int32Array;
  /** Ascending places of the plays with a known outcome. */
  readonly rows: Int32Array;
  readonly outcome: Int32Array;
  readonly classes: number;
  /** What was to be expected without knowing who calls. */
  readonly expected: Float64Array;
  /** Games from this one on teach nothing that outlasts them. */
  readonly untilGame: number;
}

/**
 * How much more often than expected the plays of a group went to each class, so far: the sum of outcome less expectation
 * over the number of plays and the prior's. A play never counts for itself nor for anything before it, a career only
 * after its game is over: what a model learns from is what it will know when it forecasts.
 *
 * @returns one column a group and class; of two classes only the second
 */
export function historyFeatures(facts: HistoryFacts, groups: readonly HistoryGroup[]): FeatureColumn[] {
  const { classes } = facts;
  const reported = classes === 2 ? [1] : Array.from({ length: classes }, (_, k) => k);
  return groups.flatMap((group) => {
    const columns = reported.map(() => new Float64Array(facts.game.length).fill(Number.NaN));
    runHistory(facts, group, reported, columns);
    return columns.map((values, place): FeatureColumn => ({
      name: `${group.name} ${reported[place] ?? 0}`,
      kind: 'number',
      values,
    }));
  });
}

function runHistory(
  { game, rows, outcome, classes, expected, untilGame }: HistoryFacts,
  { keys, halfLife, prior, span }: HistoryGroup,
  reported: readonly number[],
  columns: readonly Float64Array[],
): void {
  const keep = Number.isFinite(halfLife) ? 0.5 ** (1 / halfLife) : 1;
  const most = keys.reduce((top, key) => Math.max(top, key), -1) + 1;
  const plays = new Float64Array(most);
  const excess = new Float64Array(most * reported.length);
  let start = 0;
  while (start < rows.length) {
    const current = game[rows[start] ?? 0] ?? 0;
    let end = start;
    while (end < rows.length && game[rows[end] ?? 0] === current) end += 1;
    if (span === 'game') {
      plays.fill(0);
      excess.fill(0);
    }
    const touched = new Set<number>();
    const learn = (row: number, key: number): void => {
      plays[key] = (plays[key] ?? 0) + 1;
      reported.forEach((k, at) => {
        const cell = key * reported.length + at;
        excess[cell] = (excess[cell] ?? 0) + (outcome[row] === k ? 1 : 0) - (expected[row * classes + k] ?? 0);
      });
    };
    for (let at = start; at < end; at += 1) {
      const row = rows[at] ?? 0;
      const key = keys[row] ?? -1;
      if (key < 0) continue;
      touched.add(key);
      columns.forEach((values, place) => {
        values[row] = (excess[key * reported.length + place] ?? 0) / ((plays[key] ?? 0) + prior);
      });
      if (span === 'game') learn(row, key);
    }
    if (span === 'career' && current < untilGame) {
      for (const key of touched) {
        plays[key] = (plays[key] ?? 0) * keep;
        for (let at = 0; at < reported.length; at += 1) {
          const cell = key * reported.length + at;
          excess[cell] = (excess[cell] ?? 0) * keep;
        }
      }
      for (let at = start; at < end; at += 1) {
        const row = rows[at] ?? 0;
        const key = keys[row] ?? -1;
        if (key >= 0) learn(row, key);
      }
    }
    start = end;
  }
}
