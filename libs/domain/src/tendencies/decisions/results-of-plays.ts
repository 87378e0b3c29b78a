import type { Results } from '../results-shape.js';
import { oneGroup } from '../one-group.js';
import { resultsOf } from '../results.js';
import type { TendencyPlays } from '../tendency-plays.js';
import { resultCounts, yardTallies, type ResultCounts } from '../value-tallies.js';

/**
 * What came of some plays, against what came of others in the field.
 *
 * @param facts      - the batch
 * @param places     - ascending places of the plays in it
 * @param field      - the field's counts, null without a field
 * @param confidence - of the interval of the success rate, in (0, 1)
 */
export function resultsOfPlays(
  facts: TendencyPlays,
  places: Int32Array,
  field: ResultCounts | null,
  confidence: number,
): Results {
  return resultsOf(resultCounts(facts, places), field, yardTallies(facts, places, oneGroup(facts)), 0, confidence);
}
