import { UNKNOWN_CODE } from '../../charting/play-columns.js';
import type { Vocabulary } from '../../charting/vocabulary.js';
import { fieldCodes, type DimensionCodes } from '../dimension-codes.js';
import { DIMENSION_LABELS, type DimensionName } from '../dimension-names.js';
import { readDimension } from '../dimensions.js';
import type { Side, TendencyPlays } from '../tendency-plays.js';
import type { CueName } from './cue-names.js';

/** What a cue may tell: dimensions of the call, and the side of the field that the play is meant for. */
export type ToldDimension = DimensionName | 'designedSide';

/** The dimensions that become known only with the snap, by side of the ball. */
export const TOLD_DIMENSIONS = {
  offense: ['called', 'callFamily', 'concept', 'direction', 'designedSide', 'targetDepth'],
  defense: ['coverage', 'coverageFamily', 'pressure', 'rushers', 'manualDefenderAction'],
} as const satisfies Record<Side, readonly ToldDimension[]>;

export const TOLD_LABELS: Readonly<Record<ToldDimension, string>> = {
  ...DIMENSION_LABELS,
  designedSide: 'side of the field',
};

/**
 * Whether a cue could tell something of a dimension that it does not fix by definition. The direction is measured from
 * the strength, so the strength is asked for the side of the field instead; that side is asked of cues that have sides.
 */
export function mayTell(cue: readonly CueName[], dimension: ToldDimension): boolean {
  if (dimension === 'direction') return !cue.includes('strength');
  if (dimension === 'designedSide') return cue.includes('strength') || cue.includes('hash');
  return true;
}

/**
 * Reads what may be told off a batch. The direction is known only where the set has a strength: "to a side of a balanced
 * set" would be told by every balanced formation.
 *
 * @throws DomainError `vocabulary.unknown_code` when the vocabulary lacks the starter terms
 */
export function readTold(dimension: ToldDimension, facts: TendencyPlays, vocabulary: Vocabulary): DimensionCodes {
  if (dimension === 'designedSide') return fieldCodes(dimension, facts, vocabulary);
  const read = readDimension(dimension, facts, vocabulary);
  return dimension === 'direction' ? withStrength(read, facts, vocabulary) : read;
}

function withStrength({ codes, values }: DimensionCodes, facts: TendencyPlays, vocabulary: Vocabulary): DimensionCodes {
  const strength = fieldCodes('strength', facts, vocabulary);
  const balanced = strength.values.findIndex(({ key }) => key === 'balanced');
  // Up the middle of a set whose strength is not known may be the middle of a balanced one.
  const isLeftOut = (play: number): boolean => {
    const code = strength.codes[play] ?? UNKNOWN_CODE;
    return code < 0 || code === balanced;
  };
  return { codes: codes.map((code, play) => (isLeftOut(play) ? UNKNOWN_CODE : code)), values };
}
