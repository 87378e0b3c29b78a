import type { Vocabulary } from '../charting/vocabulary.js';
import { readDimension } from '../tendencies/dimensions.js';
import type { DimensionName, DimensionValue } from '../tendencies/dimension-names.js';
import { pairCodes } from '../tendencies/tells/pair-codes.js';
import type { Side, TendencyPlays } from '../tendencies/tendency-plays.js';

/** One or two dimensions whose values may spread: a pair is one call as players copy it from each other. */
export interface TrendDimension {
  readonly name: string;
  readonly parts: readonly DimensionName[];
}

/** What is watched, in the order of the answer. */
export const TREND_DIMENSIONS: Readonly<Record<Side, readonly TrendDimension[]>> = {
  offense: [
    { name: 'concept', parts: ['concept'] },
    { name: 'formation', parts: ['formation'] },
    { name: 'callFamily', parts: ['callFamily'] },
    { name: 'motion', parts: ['motion'] },
    { name: 'formationAndConcept', parts: ['formation', 'concept'] },
  ],
  defense: [
    { name: 'front', parts: ['front'] },
    { name: 'coverage', parts: ['coverage'] },
    { name: 'shell', parts: ['shell'] },
    { name: 'pressure', parts: ['pressure'] },
    { name: 'manualDefenderAction', parts: ['manualDefenderAction'] },
    { name: 'frontAndCoverage', parts: ['front', 'coverage'] },
  ],
};

/** A dimension, or a pair of them, read off a batch. */
export interface TrendCodes {
  /** One a play: place in `values`, -1 where any part is not known. */
  readonly codes: Int16Array;
  /** The parts of each value, in the order of the dimension's. */
  readonly values: readonly (readonly DimensionValue[])[];
}

export function readTrendDimension(
  { parts }: TrendDimension,
  facts: TendencyPlays,
  vocabulary: Vocabulary,
): TrendCodes {
  const [first, second] = parts.map((part) => readDimension(part, facts, vocabulary));
  if (first === undefined) return { codes: new Int16Array(facts.plays.count).fill(-1), values: [] };
  if (second === undefined) return { codes: first.codes, values: first.values.map((value) => [value]) };
  const { codes, pairs } = pairCodes(first.codes, second.codes, second.values.length);
  return {
    codes,
    values: pairs.map(([one, other]) =>
      [first.values[one], second.values[other]].filter((value) => value !== undefined),
    ),
  };
}
