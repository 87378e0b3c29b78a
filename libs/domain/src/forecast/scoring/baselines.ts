import { joinKeys } from '../nested/context-keys.js';

/** A simple forecast to be beaten: shares counted on the training plays. */
export interface Baseline {
  readonly name: string;
  /** plays x classes, filled at the plays that were asked for. */
  readonly probabilities: Float64Array;
}

export interface BaselineFacts {
  readonly outcome: Int32Array;
  readonly classes: number;
  readonly train: Int32Array;
  readonly test: Int32Array;
  /** One key a play, -1 where unknown. */
  readonly downAndDistance: Int32Array;
  readonly player: Int32Array;
  readonly formation: Int32Array;
}

/**
 * The forecasts that a model has to beat: the training plays' shares; those by down and distance; a player's own by down
 * and distance; and those by formation, down and distance. Each adds one play of every class to every cell (Laplace), and
 * an unknown key is a cell of its own.
 */
export function baselines(facts: BaselineFacts): readonly Baseline[] {
  const { downAndDistance, player, formation } = facts;
  const bucket = shifted(downAndDistance);
  const everywhere = new Int32Array(downAndDistance.length);
  return [
    { name: 'constant', probabilities: cellShares(facts, everywhere) },
    { name: 'field by down and distance', probabilities: cellShares(facts, bucket) },
    { name: 'player by down and distance', probabilities: cellShares(facts, joinKeys(shifted(player), bucket)) },
    {
      name: 'field by formation, down and distance',
      probabilities: cellShares(facts, joinKeys(shifted(formation), bucket)),
    },
  ];
}

function shifted(keys: Int32Array): Int32Array {
  return keys.map((key) => key + 1);
}

function cellShares({ outcome, classes, train, test }: BaselineFacts, keys: Int32Array): Float64Array {
  const cells = keys.reduce((top, key) => Math.max(top, key), 0) + 1;
  const counts = new Float64Array(cells * classes).fill(1);
  for (const row of train) {
    const cell = (keys[row] ?? 0) * classes + (outcome[row] ?? 0);
    counts[cell] = (counts[cell] ?? 0) + 1;
  }
  const probabilities = new Float64Array(keys.length * classes);
  for (const row of test) {
    const cell = counts.subarray((keys[row] ?? 0) * classes, ((keys[row] ?? 0) + 1) * classes);
    const total = cell.reduce((sum, count) => sum + count, 0);
    for (let k = 0; k < classes; k += 1) probabilities[row * classes + k] = (cell[k] ?? 0) / total;
  }
  return probabilities;
}
