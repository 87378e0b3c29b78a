import { readDimension } from '../dimensions.js';
import type { DimensionCodes } from '../dimension-codes.js';
import type { DimensionName } from '../dimension-names.js';
import type { Vocabulary } from '../../charting/vocabulary.js';
import type { TendencyPlays } from '../tendency-plays.js';
import { previousSnaps, type JoinedWithin } from './successive-snaps.js';

/** Snaps of a batch that follow another one, both of known value in a dimension. */
export interface CallPairs {
  readonly facts: TendencyPlays;
  readonly read: DimensionCodes;
  /** Ascending places of the later snaps. */
  readonly places: Int32Array;
  /** Place of the snap before, one a play of the batch; -1 for none. */
  readonly previous: Int32Array;
}

/** @param among - ascending places of the later snaps to look at; the snap before may be any of the batch */
export function callPairs(
  facts: TendencyPlays,
  among: Int32Array,
  dimension: DimensionName,
  vocabulary: Vocabulary,
  within: JoinedWithin,
): CallPairs {
  const read = readDimension(dimension, facts, vocabulary);
  const previous = previousSnaps(facts, within);
  const places = among.filter((play) => {
    const before = previous[play] ?? -1;
    return before >= 0 && (read.codes[play] ?? -1) >= 0 && (read.codes[before] ?? -1) >= 0;
  });
  return { facts, read, places, previous };
}

/** Whether the later snap of a pair does what the one before did: 1 yes, 0 no, -1 for a play that is no pair. */
export function repeatAnswers({ read, places, previous }: CallPairs): Int8Array {
  const answers = new Int8Array(read.codes.length).fill(-1);
  for (const play of places) answers[play] = read.codes[play] === read.codes[previous[play] ?? -1] ? 1 : 0;
  return answers;
}

/** A number for each pair of game and situation; -1 where the situation is not known. */
export function situationInGame({ plays, situation, situationNames }: TendencyPlays, play: number): number {
  const code = situation[play] ?? -1;
  return code < 0 ? -1 : (plays.chartIndex[play] ?? 0) * situationNames.length + code;
}
