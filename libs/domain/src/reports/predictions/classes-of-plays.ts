import type { Vocabulary } from '../../charting/vocabulary.js';
import { readDimension } from '../../tendencies/dimensions.js';
import type { TendencyPlays } from '../../tendencies/tendency-plays.js';
import type { PredictedTable } from './predictions-shape.js';

/** Key of the class of all calls that have none of their own. */
export const ANY_OTHER = 'any other';

/**
 * The class of each play of a batch in a table of probabilities. A call that has no class of its own is any other.
 *
 * @returns -1 where the call is not known, or is outside a table of fixed words
 */
export function classesOfPlays(
  { dimension, classes }: Pick<PredictedTable, 'dimension' | 'classes'>,
  facts: TendencyPlays,
  vocabulary: Vocabulary,
): Int32Array {
  const { codes, values } = readDimension(dimension, facts, vocabulary);
  const placeOf = new Map(classes.map(({ valueKey }, place) => [valueKey, place]));
  const classOf = values.map(({ key }) => placeOf.get(key) ?? placeOf.get(ANY_OTHER) ?? -1);
  return Int32Array.from(codes, (code) => classOf[code] ?? -1);
}
