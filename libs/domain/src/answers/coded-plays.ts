import { UNKNOWN_POINTS } from '../football/expected-points-added.js';

/** Plays with everything that a result is divided by, as small numbers; every array has one entry a play. */
export interface CodedPlays {
  /** Level of the offensive call, -1 where neither concept nor family is known. */
  readonly call: Int16Array;
  readonly calls: number;
  /** Level of the defensive call; "not seen" is a level, since what is seen of a defense depends on the result. */
  readonly answer: Int16Array;
  readonly answers: number;
  /** Number of the player on either side of the ball, -1 for nobody known. */
  readonly offense: Int32Array;
  readonly defense: Int32Array;
  readonly players: number;
  /** One side with the ball in one game: the cluster of a play. */
  readonly gameSide: Int32Array;
  readonly gameSides: number;
  /** Situation, -1 where it is not known. */
  readonly situation: Int8Array;
  readonly situations: number;
}

/** Fewer plays than this in a situation have no mean of their own. A choice, no source. */
const FEWEST_IN_SITUATION = 20;

/** What a situation alone leads one to expect. */
export interface SituationMeans {
  readonly overall: number;
  /** One a situation. */
  readonly means: Float64Array;
  readonly plays: number;
}

/**
 * Means of an outcome by situation, over the plays on which it is known.
 *
 * @param outcome - one a play, UNKNOWN_POINTS where not known or where the play does not count
 */
export function situationMeans({ situation, situations }: CodedPlays, outcome: Float64Array): SituationMeans {
  const [counts, sums] = [new Float64Array(situations), new Float64Array(situations)];
  let [plays, total] = [0, 0];
  for (let play = 0; play < outcome.length; play += 1) {
    const value = outcome[play] ?? UNKNOWN_POINTS;
    if (value === UNKNOWN_POINTS) continue;
    plays += 1;
    total += value;
    const at = situation[play] ?? -1;
    if (at < 0) continue;
    counts[at] = (counts[at] ?? 0) + 1;
    sums[at] = (sums[at] ?? 0) + value;
  }
  const overall = plays === 0 ? 0 : total / plays;
  const means = sums.map((sum, at) => ((counts[at] ?? 0) < FEWEST_IN_SITUATION ? overall : sum / (counts[at] ?? 1)));
  return { overall, means, plays };
}

/** The mean of a play's situation. */
export function expectedBySituation({ overall, means }: SituationMeans, situation: number): number {
  return situation < 0 ? overall : (means[situation] ?? overall);
}
