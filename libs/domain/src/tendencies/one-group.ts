import type { TendencyPlays } from './tendency-plays.js';

const ONE_GROUP = new WeakMap<TendencyPlays, Int16Array>();

/**
 * Code 0 for every play of a batch, so that the results of all of some plays are counted like those of a value. Made once,
 * since a batch can be a whole archive and is asked about many times.
 */
export function oneGroup(facts: TendencyPlays): Int16Array {
  const kept = ONE_GROUP.get(facts) ?? new Int16Array(facts.plays.count);
  ONE_GROUP.set(facts, kept);
  return kept;
}
