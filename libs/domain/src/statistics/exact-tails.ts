import { elementAt } from './element-at.js';
import type { IntegerDistribution } from './conditional-distribution.js';

/** Tail probabilities of an observed count, each in [0, 1]. */
export interface Tails {
  /** As small or smaller. */
  readonly less: number;
  /** As large or larger. */
  readonly greater: number;
  /** As improbable or more so, on either side. */
  readonly twoSided: number;
}

/** Tails that count the observed outcome by half; `twoSided` is twice the smaller, at most 1, as in a mid-P interval. */
export interface MidPTails {
  readonly less: number;
  readonly greater: number;
  readonly twoSided: number;
}

export interface ExactTails extends Tails {
  readonly midP: MidPTails;
}

// Two outcomes this close in probability are the same by symmetry and differ by rounding only.
const SAME_PROBABILITY = 1e-7;

/**
 * How extreme a count is in its exact distribution.
 *
 * @param distribution - over consecutive integers
 * @param observed     - one of them
 * @see Lancaster (1961), J. Am. Stat. Assoc. 56, 223–234 (mid-P); Agresti (2002), Categorical Data Analysis, 2nd ed., 3.5
 */
export function exactTails({ first, probabilities }: IntegerDistribution, observed: number): ExactTails {
  const place = observed - first;
  const own = elementAt(probabilities, place);
  const sumWhere = (wanted: (probability: number, step: number) => boolean): number =>
    probabilities.reduce((sum, probability, step) => (wanted(probability, step) ? sum + probability : sum), 0);

  const smaller = sumWhere((_, step) => step < place);
  const larger = sumWhere((_, step) => step > place);
  const notMoreProbable = sumWhere((probability) => probability <= own * (1 + SAME_PROBABILITY));
  const [midLess, midGreater] = [smaller + own / 2, larger + own / 2];
  return {
    less: Math.min(1, smaller + own),
    greater: Math.min(1, larger + own),
    twoSided: Math.min(1, notMoreProbable),
    // Ordering by probability would count a near twin on the other side wholly or not at all, and jump; doubling is smooth.
    midP: { less: midLess, greater: midGreater, twoSided: Math.min(1, 2 * Math.min(midLess, midGreater)) },
  };
}
